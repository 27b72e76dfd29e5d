/** Every action of the page, one list: what the command line can do, which keys do it, and what the key list shows. */
import { BOARD_COMMANDS } from './board-commands.ts';
import { BUILD_COMMANDS } from './build-commands.ts';
import type { Command } from './command.ts';
import { HAND_COMMANDS } from './control-commands.ts';
import { LOOK_COMMANDS } from './display-commands.ts';
import { PLAN_COMMANDS } from './plan-commands.ts';
import { VIEW_COMMANDS } from './print-commands.ts';
import { THING_COMMANDS } from './selection-commands.ts';

export const COMMANDS: readonly Command[] = [
  ...HAND_COMMANDS,
  ...BUILD_COMMANDS,
  ...THING_COMMANDS,
  ...BOARD_COMMANDS,
  ...PLAN_COMMANDS,
  ...LOOK_COMMANDS,
  ...VIEW_COMMANDS,
];
