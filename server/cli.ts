/** The command line's own door: takes the words of the shell, prints, and leaves with an exit code. */
import { runCommand } from './cli/run.ts';

process.exitCode = runCommand(process.argv.slice(2), {
  out: (text) => console.log(text),
  refuse: (text) => console.error(text),
});
