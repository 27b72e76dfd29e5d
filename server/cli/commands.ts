/** Every command of the shell, one line each. */
import { BUILD } from './build.ts';
import { CHECK } from './check.ts';
import { CHECKSUMS } from './checksums.ts';
import type { ShellCommand } from './command.ts';
import { MARGINS } from './margins.ts';
import { PLANT } from './plant.ts';
import { PRESS } from './press.ts';
import { PLAN, TEXT } from './print.ts';
import { PROVE } from './prove.ts';
import { RECORD } from './record.ts';
import { REPAIR } from './repair.ts';
import { SHEET } from './sheet.ts';
import { SWEEP } from './sweep.ts';
import { TIDY } from './tidy.ts';

export const SHELL_COMMANDS: readonly ShellCommand[] = [
  CHECK,
  SWEEP,
  MARGINS,
  PRESS,
  RECORD,
  PROVE,
  REPAIR,
  BUILD,
  SHEET,
  PLANT,
  TIDY,
  CHECKSUMS,
  TEXT,
  PLAN,
];
