/** The command line: finds the command, reads its arguments and runs it. Answers go out, refusals go to the error stream. */
import { version } from '../../package.json' with { type: 'json' };
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import { didYouMean, nearestNames } from '../../shared/misspelling.ts';
import { DEMO_TABLES, type Failure, failed, type Outcome } from '../../sim-core/index.ts';
import { readArguments } from './arguments.ts';
import type { ExitCode, Output, ShellAnswer, ShellCommand } from './command.ts';
import { SHELL_COMMANDS } from './commands.ts';
import { commandHelp, help } from './help.ts';

const commandNamed = (name: string): ShellCommand | undefined => SHELL_COMMANDS.find((c) => c.name === name);

export function runCommand(args: readonly string[], output: Output): ExitCode {
  const json = args.includes('--json');
  const [name = 'help', ...rest] = args.filter((a) => a !== '--json' || args[0] !== '--json');
  const print = (text: string): ExitCode => {
    output.out(text);
    return 0;
  };
  const refuse = ({ code, at, says }: Failure): ExitCode => {
    if (json) output.out(JSON.stringify({ code, at, says }, null, 2));
    else output.refuse(says);
    return 2;
  };
  if (name === '--version') return print(version);
  if (name === '--help') return print(help());
  if (name === 'help') {
    const [about] = rest.filter((a) => !a.startsWith('--'));
    if (about === undefined) return print(help());
    const command = commandNamed(about);
    return command ? print(commandHelp(command)) : refuse(unknownCommand(about));
  }
  const command = commandNamed(name);
  if (!command) return refuse(unknownCommand(name));
  if (rest.includes('--help')) return print(commandHelp(command));
  const result = answerOf(command, rest);
  if (!result.ok) return refuse(result.failure);
  output.out(json ? JSON.stringify(result.value.data, null, 2) : result.value.text);
  return result.value.code;
}

function answerOf(command: ShellCommand, args: readonly string[]): Outcome<ShellAnswer> {
  const given = readArguments(command, args);
  if (!given.ok) return given;
  if (given.value.words.length > 0) return command.run(given.value);
  const [what, ids] = command.takes === 'PLAN' ? ['plan', DEMO_PLANS] : ['table', DEMO_TABLES];
  return failed(
    'command/missing-word',
    command.name,
    `${command.name} needs a ${what}: a file, or one of ${ids.map((d) => d.id).join(', ')}.`,
  );
}

function unknownCommand(name: string): Failure {
  const names = [...SHELL_COMMANDS.map((c) => c.name), 'help'];
  const near = didYouMean(nearestNames(name, names)) || ` There are ${names.join(', ')}.`;
  return { code: 'command/unknown', at: name, says: `${name} is not a command.${near}` };
}
