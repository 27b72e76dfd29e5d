/** Entry of the command line: takes the arguments of the shell, prints, and sets the exit code. */
import { runCommand } from './cli/run.ts';

process.exitCode = runCommand(process.argv.slice(2), {
  out: (text) => console.log(text),
  refuse: (text) => console.error(text),
});
