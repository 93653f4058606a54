import type { BathEntry } from '../../shared/api/methods/bath-methods.ts';
import type { Given, Output } from '../../shared/api/contract.ts';
import type { BathKindValue } from '../../shared/api/process-values.ts';
import { parseDilution } from '../../shared/domain/development/dilution.ts';
import { formatExtension, parseExtension } from '../../shared/domain/development/rule-text.ts';
import { yours } from '../../shared/domain/development/source.ts';
import { ROLL_AREA_CM2 } from '../../shared/domain/film/film-area.ts';
import { describeMixReason } from '../../shared/text/describe-mix.ts';
import { readNumber } from './read-number.ts';

/** What is typed of a bath; null: as it is offered. */
export interface BathForm {
  readonly name: string;
  readonly kind: BathKindValue;
  readonly process: string;
  readonly mixed: string;
  readonly volume: string;
  readonly dilution: string;
  readonly rolls: string | null;
  readonly shelf: string | null;
  readonly extension: string | null;
  readonly before: string;
  readonly oneShot: boolean;
  readonly note: string;
}

type Offer = Output<'baths.offer'>;

/** The fields of a bath that is there already. */
export function formOfBath(bath: BathEntry): BathForm {
  return {
    name: bath.name,
    kind: bath.kind,
    process: bath.process ?? 'other',
    mixed: bath.mixed?.typed ?? '',
    volume: bath.volumeMl === null ? '' : String(bath.volumeMl),
    dilution: bath.dilution ?? '',
    rolls: bath.capacityCm2 === null ? '' : inRolls(bath.capacityCm2),
    shelf: bath.shelfDays === null ? '' : String(bath.shelfDays),
    extension: formatExtension(bath.extension),
    before: bath.usedBeforeCm2 === 0 ? '' : inRolls(bath.usedBeforeCm2),
    oneShot: bath.oneShot,
    note: bath.note ?? '',
  };
}

function inRolls(areaCm2: number): string {
  return String(Number((areaCm2 / ROLL_AREA_CM2).toFixed(2)));
}

/** What stands in the offered fields: what was typed, else the offer. */
export function shownOffer(form: BathForm, offer: Offer | undefined) {
  const capacity = offer?.capacityCm2?.value;
  return {
    rolls: form.rolls ?? (capacity === undefined ? '' : inRolls(capacity)),
    shelf: form.shelf ?? String(offer?.shelfDays?.value ?? ''),
    extension: form.extension ?? formatExtension(offer?.extension ?? null),
  };
}

/** What is wrong with a field, in words; empty when everything can be read. */
export function findFormErrors(
  form: BathForm,
  offer: Offer | undefined,
): Partial<Record<keyof BathForm, string>> {
  const shown = shownOffer(form, offer);
  const errors: Partial<Record<keyof BathForm, string>> = {};
  const positive = (field: keyof BathForm, text: string) => {
    const number = readNumber(text);
    if (text.trim() !== '' && (number === null || number <= 0))
      errors[field] = 'more than nothing, such as 1000';
  };
  positive('volume', form.volume);
  positive('rolls', shown.rolls);
  positive('shelf', shown.shelf);
  const before = readNumber(form.before);
  if (form.before.trim() !== '' && (before === null || before < 0)) errors.before = 'a number such as 4.2';
  const parts = parseDilution(form.dilution);
  if (form.dilution.trim() !== '' && !parts.ok) errors.dilution = describeMixReason(parts.reason);
  if (!parseExtension(shown.extension, yours('')).ok) {
    errors.extension = '2% or a table such as 1=3:15, 5=3:30';
  }
  return errors;
}

/** The bath that the fields say. What was left as it was offered keeps its source. */
export function bathOfForm(
  form: BathForm,
  offer: Offer | undefined,
  was: BathEntry | null,
): Given<'baths.add'> {
  const shown = shownOffer(form, offer);
  const rolls = readNumber(shown.rolls);
  const days = readNumber(shown.shelf);
  const rule = parseExtension(shown.extension, yours('Entered with the bath'));
  const orNull = (text: string) => (text.trim() === '' ? null : text.trim());
  const isAsBefore = was !== null && shown.extension === formatExtension(was.extension);
  const kept = isAsBefore ? was.extension : form.extension === null ? (offer?.extension ?? null) : undefined;
  return {
    name: form.name,
    kind: form.kind,
    process: form.process,
    mixed: orNull(form.mixed),
    volumeMl: readNumber(form.volume),
    dilution: orNull(form.dilution),
    capacityCm2:
      was !== null && shown.rolls === formOfBath(was).rolls
        ? was.capacityCm2
        : rolls === null
          ? null
          : rolls * ROLL_AREA_CM2,
    shelfDays: days === null ? null : Math.round(days),
    extension: kept === undefined ? (rule.ok ? rule.value : null) : kept,
    usedBeforeCm2:
      was !== null && form.before === formOfBath(was).before
        ? was.usedBeforeCm2
        : (readNumber(form.before) ?? 0) * ROLL_AREA_CM2,
    oneShot: form.oneShot,
    note: orNull(form.note),
  };
}
