import type { Causes } from '../../shared/api/methods/causes-methods.ts';
import type { Stock } from '../../shared/api/methods/film-methods.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { countOf, MEASURE_WORDS } from '../../shared/text/describe-trend.ts';
import { useArchive } from '../api/use-query.ts';
import type { Route } from '../state/route.ts';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { Notice } from '../ui/notice.tsx';
import { factorLabel, isLogNumber } from './cast-axes.ts';
import { castPoints, type CastPoints } from './cast-points.ts';
import { CastTable } from './cast-table.tsx';
import { readQuestion, type CastsQuestion } from './casts-question.ts';
import { CastsSentence } from './casts-sentence.tsx';
import { DevelopmentPanel } from './development-panel.tsx';
import { FaultFindings } from './fault-findings.tsx';
import { Measuring } from './measuring.tsx';
import { RollPanel } from './roll-panel.tsx';
import { ScatterPlot } from './scatter-plot.tsx';
import { StripPlot } from './strip-plot.tsx';
import { factorOf, TrendWords } from './trend-words.tsx';
import { useCasts } from './use-casts.ts';
import './casts-view.css';

/** C-41 developer: 37.8 ± 0.15 °C. Source: Kodak Z-131, Table 4-1. */
const C41_TOLERANCE = { eitherWay: 0.15, label: '37.8, 0.15 either way' };

/** Casts and fog of rolls against what the log knows of them, and where faults come together. */
export function CastsView({ route }: { readonly route: Route }) {
  const stocks = useArchive('stocks.list', {});
  if (stocks.error) return <Notice kind="failed" {...describeError(stocks.error)} />;
  if (!stocks.data) return <div className="casts" aria-busy="true" />;
  const used = stocks.data.filter(({ rolls }) => rolls > 0);
  const question = readQuestion(route.params, used);
  if (!question) return <NoCasts />;
  const stock = used.find(({ id }) => id === question.stockId) ?? null;
  return <AskedCasts key={question.stockId} question={question} stock={stock} stocks={used} route={route} />;
}

interface AskedProps {
  readonly question: CastsQuestion;
  /** Null for every stock. */
  readonly stock: Stock | null;
  readonly stocks: readonly Stock[];
  readonly route: Route;
}

function AskedCasts({ question, stock, stocks, route }: AskedProps) {
  const viewState = useViewState();
  const { measure, factor, per } = question;
  const { causes, ofStock, all, error } = useCasts(question.stockId, per);
  const name = stock?.name ?? 'every stock';
  const idParam = per === 'roll' ? 'roll' : 'development';
  const choose = (id: number) => viewState.adjust({ [idParam]: String(id) });
  const sentence = (
    <>
      <h1 className="unseen">
        {measure === 'fog' ? 'Fog of the base' : `Cast ${MEASURE_WORDS[measure].label}`} of {name} {per}s,
        against {factorLabel(factor)}
      </h1>
      <CastsSentence
        question={question}
        stocks={stocks}
        onQuestion={(next) =>
          viewState.adjust({
            of: next.measure,
            against: next.factor,
            stock: next.stockId === null ? 'all' : String(next.stockId),
            per: next.per === 'roll' ? null : next.per,
            ...(next.stockId === question.stockId ? {} : { roll: null, development: null }),
          })
        }
      />
    </>
  );
  if (!causes) {
    return (
      <div className="casts">
        {sentence}
        {error ? <Notice kind="failed" {...describeError(error)} /> : <Measuring stock={stock} />}
      </div>
    );
  }
  const besides =
    stock === null
      ? []
      : (all?.rolls ?? []).filter((roll) => roll.process === stock.process && roll.stock !== stock.name);
  const drawn = castPoints(causes.rolls, besides, per, measure, factor);
  const answers = [...causes.trends, ...causes.groups];
  const answer = answers.find((each) => each.of === measure && factorOf(each) === factor) ?? null;
  const asked = Number(route.params[idParam] ?? Number.NaN);
  const chosen = Number.isInteger(asked) ? asked : per === 'roll' ? mostStanding(causes) : null;
  return (
    <div className="casts">
      {sentence}
      {error ? <Notice kind="failed" {...describeError(error)} /> : null}
      <div className="casts-desk">
        <div className="casts-plot">
          {drawn.points.length === 0 ? (
            <NothingToPlot name={name} question={question} stock={stock} drawn={drawn} rolls={causes.rolls} />
          ) : (
            <Plot
              question={question}
              stock={stock}
              drawn={drawn}
              causes={causes}
              chosen={chosen}
              onChoose={choose}
            />
          )}
          {answer ? <TrendWords answer={answer} answers={answers} per={per} /> : null}
        </div>
        <aside className="cast-roll" aria-label={per === 'roll' ? 'One roll' : 'One development'}>
          <Chosen causes={causes} chosen={chosen} question={question} />
        </aside>
      </div>
      <CastTable
        stock={name}
        measure={measure}
        factor={factor}
        rolls={causes.rolls}
        casts={ofStock}
        chosen={per === 'roll' ? chosen : null}
        onChoose={(id) => viewState.adjust({ roll: String(id), per: null })}
      />
      {all ? <FaultFindings faults={all.faults} /> : null}
    </div>
  );
}

function mostStanding({ rolls }: Causes): number | null {
  const standing = rolls.filter(({ stands }) => stands);
  return standing.toSorted((one, other) => (other.deltaE00 ?? 0) - (one.deltaE00 ?? 0))[0]?.id ?? null;
}

interface PlotProps {
  readonly question: CastsQuestion;
  readonly stock: Stock | null;
  readonly drawn: CastPoints;
  readonly causes: Causes;
  readonly chosen: number | null;
  readonly onChoose: (id: number) => void;
}

function Plot({ question, stock, drawn, causes, chosen, onChoose }: PlotProps) {
  const { measure, factor, per } = question;
  const name = stock?.name ?? 'Every stock';
  const standing = per === 'roll' ? causes.rolls.filter(({ stands }) => stands) : [];
  const shared = { stock: name, per, measure, drawn, chosen, onChoose };
  if (isLogNumber(factor)) {
    const trend = causes.trends.find(({ of, against }) => of === measure && against === factor) ?? null;
    const isC41 = stock === null || stock.process === 'c41';
    return (
      <ScatterPlot
        {...shared}
        factor={factor}
        trend={trend}
        tolerance={factor === 'temperatureErrorC' && isC41 ? C41_TOLERANCE : null}
        named={new Set([...standing, ...(trend?.outliers ?? [])].map(({ id }) => id))}
      />
    );
  }
  const groups = causes.groups.find(({ of, by }) => of === measure && by === factor);
  return (
    <StripPlot
      {...shared}
      kind={factor}
      groups={{ groups: groups?.groups ?? [] }}
      named={new Set([...standing, ...(groups?.outliers ?? [])].map(({ id }) => id))}
    />
  );
}

interface ChosenProps {
  readonly causes: Causes;
  readonly chosen: number | null;
  readonly question: CastsQuestion;
}

function Chosen({ causes, chosen, question }: ChosenProps) {
  const isRoll = question.per === 'roll';
  if (chosen === null) {
    const isMeasured = causes.rolls.some((roll) => roll[question.measure] !== null);
    const what = isRoll ? 'roll' : 'development';
    return (
      <p>
        {isMeasured
          ? `${isRoll ? 'No roll stands out from its stock. ' : ''}Point at a dot or a line of the list to see its ${what} here.`
          : `A ${what} that is measured is shown here.`}
      </p>
    );
  }
  if (!isRoll) {
    return (
      <DevelopmentPanel
        developmentId={chosen}
        rolls={causes.rolls.filter(({ development }) => development?.id === chosen)}
      />
    );
  }
  const stock = causes.rolls.find(({ id }) => id === chosen)?.stock;
  const among = causes.rolls.filter((roll) => roll.stock === stock && roll.a !== null);
  return <RollPanel rollId={chosen} among={among} />;
}

interface NothingProps {
  readonly name: string;
  readonly question: CastsQuestion;
  readonly stock: Stock | null;
  readonly drawn: CastPoints;
  readonly rolls: Causes['rolls'];
}

/** Rolls that a roll is held against, as the engine has it: a median of two is no measure. */
const LEAST_OTHERS = 3;

function NothingToPlot({ name, question, stock, drawn, rolls }: NothingProps) {
  const viewState = useViewState();
  const { measure, factor, per } = question;
  const drawing = <div className="casts-no-plot" aria-hidden="true" />;
  if (stock?.process === 'bw' && measure !== 'fog') {
    return (
      <EmptyState
        says={`${name} is black-and-white: it has no cast. The fog of its base can be seen.`}
        drawing={drawing}
        action={
          <Button look="main" onPress={() => viewState.adjust({ of: 'fog' })}>
            Show its fog
          </Button>
        }
      />
    );
  }
  const what = measure === 'fog' ? 'fog' : 'cast';
  if (drawn.measured > 0) {
    return (
      <EmptyState
        says={`${countOf(drawn.measured, per)} of ${name} with a measured ${what}, but the log does not say the ${factorLabel(factor)} of any. Write it down and ${drawn.measured === 1 ? 'it becomes a dot' : 'they become dots'} here.`}
        drawing={drawing}
      />
    );
  }
  const seen = rolls.filter(({ a }) => a !== null).length;
  return (
    <EmptyState
      says={
        seen > 0
          ? `Not enough rolls: ${countOf(seen, 'roll')} of ${name} ${seen === 1 ? 'is' : 'are'} measured, and a ${what} is told against at least ${LEAST_OTHERS} other rolls of the stock.`
          : `No roll of ${name} has scans yet that say something about a ${what}. Each ${per} becomes a dot here.`
      }
      drawing={drawing}
    />
  );
}

function NoCasts() {
  const viewState = useViewState();
  return (
    <div className="casts casts-bare">
      <h1 className="unseen">Casts</h1>
      <EmptyState
        says="Each roll becomes a dot here once its scans lie on its frames: its cast and its fog, against what the log knows of its development."
        drawing={<div className="casts-no-plot" aria-hidden="true" />}
        action={
          <Button look="main" onPress={() => viewState.go({ view: 'scans' })}>
            Bring in scans
          </Button>
        }
      />
    </div>
  );
}
