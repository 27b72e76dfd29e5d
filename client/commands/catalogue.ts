/** Every action of the page, one list: what the command line can do, which keys do it, and what the key list shows. */
import { BOARD_COMMANDS } from './board-commands.ts';
import { BUILD_COMMANDS } from './build-commands.ts';
import type { Command } from './command.ts';
import { HAND_COMMANDS } from './hand-commands.ts';
import { LOOK_COMMANDS } from './look-commands.ts';
import { PLAN_COMMANDS } from './plan-commands.ts';
import { THING_COMMANDS } from './thing-commands.ts';
import { VIEW_COMMANDS } from './view-commands.ts';

export const COMMANDS: readonly Command[] = [
  ...HAND_COMMANDS,
  ...BUILD_COMMANDS,
  ...THING_COMMANDS,
  ...BOARD_COMMANDS,
  ...PLAN_COMMANDS,
  ...LOOK_COMMANDS,
  ...VIEW_COMMANDS,
];
