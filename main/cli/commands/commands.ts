import type { Command } from '../command.ts';
import { ARCHIVE_COMMANDS } from './archive-commands.ts';
import { BATH_COMMANDS } from './bath-commands.ts';
import { DEMO_COMMANDS } from './demo-command.ts';
import { DEVELOP_COMMANDS } from './develop-commands.ts';
import { FILING_COMMANDS } from './filing-commands.ts';
import { FILM_COMMANDS } from './film-commands.ts';
import { FIND_COMMANDS } from './find-commands.ts';
import { MIX_COMMANDS } from './mix-commands.ts';
import { PROCESS_COMMANDS } from './process-commands.ts';
import { CAUSES_COMMANDS } from './causes-commands.ts';
import { COLOUR_COMMANDS } from './colour-commands.ts';
import { LOOK_COMMANDS } from './look-commands.ts';
import { LOOK_UP_COMMANDS } from './look-up-commands.ts';
import { SCAN_COMMANDS } from './scan-commands.ts';
import { SHEET_COMMANDS } from './sheet-commands.ts';

/** Every command, in the order the usage lists them. */
export const COMMANDS: readonly Command[] = [
  ...ARCHIVE_COMMANDS,
  ...FILM_COMMANDS,
  ...DEVELOP_COMMANDS,
  ...BATH_COMMANDS,
  ...PROCESS_COMMANDS,
  ...MIX_COMMANDS,
  ...SCAN_COMMANDS,
  ...FILING_COMMANDS,
  ...SHEET_COMMANDS,
  ...FIND_COMMANDS,
  ...LOOK_UP_COMMANDS,
  ...COLOUR_COMMANDS,
  ...LOOK_COMMANDS,
  ...CAUSES_COMMANDS,
  ...DEMO_COMMANDS,
];
