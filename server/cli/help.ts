/** What `help` prints: all commands, or one with its options. */
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import { capitalised, DEMO_TABLES } from '../../sim-core/index.ts';
import { COMMON } from './arguments.ts';
import { table } from './columns.ts';
import type { Option, ShellCommand } from './command.ts';
import { SHELL_COMMANDS } from './commands.ts';

const usage = ({ name, takes, more }: ShellCommand) => [name, takes, more].filter(Boolean).join(' ');

export const help = (): string =>
  [
    'lampwright COMMAND PLAN [OPTION…]',
    '',
    'Commands:',
    table([...SHELL_COMMANDS.map((c) => [`  ${usage(c)}`, c.means]), ['  help COMMAND', 'print its options']]),
    '',
    'PLAN is a file (.plan.json or .plan.txt), or a demonstration:',
    table(DEMO_PLANS.map((d) => [`  ${d.id}`, d.plan.title])),
    '',
    'TABLE is a file of a spreadsheet (CSV), or one of',
    `  ${DEMO_TABLES.map((d) => d.id).join(', ')}`,
    '',
    'Every command takes --json: data instead of sentences.',
    'Exit code 0: fine; 1: the command found something wrong; 2: it could not be carried out.',
  ].join('\n');

export const commandHelp = (command: ShellCommand): string =>
  [
    `lampwright ${usage(command)} [OPTION…]`,
    '',
    `${capitalised(command.means)}.`,
    '',
    'Options:',
    table(Object.entries({ ...command.options, ...COMMON }).map(([name, o]) => [`  ${optionUsage(name, o)}`, o.means])),
    ...(command.notes ? ['', command.notes()] : []),
  ].join('\n');

const optionUsage = (name: string, { value, choices }: Option) =>
  `--${name}${value === undefined ? '' : ` ${choices && choices.length <= 4 ? choices.join('|') : value}`}`;
