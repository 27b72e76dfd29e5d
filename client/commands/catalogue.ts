/** Every action of the page, one list: what the command line can do, which keys do it, and what the key list shows. */
import { BOARD_COMMANDS } from './board-commands.ts';
import { BUILD_COMMANDS } from './build-commands.ts';
import type { Command } from './command.ts';
import { CONTROL_COMMANDS } from './control-commands.ts';
import { FILE_COMMANDS } from './file-commands.ts';
import { MODEL_COMMANDS } from './model-commands.ts';
import { PANEL_COMMANDS } from './panel-commands.ts';
import { SELECTION_COMMANDS } from './selection-commands.ts';
import { TABLE_COMMANDS } from './table-commands.ts';
import { VIEW_COMMANDS } from './view-commands.ts';

export const COMMANDS: readonly Command[] = [
  ...CONTROL_COMMANDS,
  ...BUILD_COMMANDS,
  ...SELECTION_COMMANDS,
  ...BOARD_COMMANDS,
  ...MODEL_COMMANDS,
  ...TABLE_COMMANDS,
  ...PANEL_COMMANDS,
  ...VIEW_COMMANDS,
  ...FILE_COMMANDS,
];
