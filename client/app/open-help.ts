/** The help, loaded when it is asked for. */
import { done, type Failure, failed, type Outcome } from '../../sim-core/index.ts';
import type { HelpDialog } from './help-dialog.ts';

let dialog: HelpDialog | undefined;

/** typed: does a line that is chosen there. */
export async function openHelp(typed: (line: string) => void): Promise<Failure | undefined> {
  const loaded = await load();
  if (!loaded.ok) return loaded.failure;
  if (!dialog) {
    dialog = loaded.value();
    dialog.addEventListener('typed', (e) => typed((e as CustomEvent<string>).detail));
    document.body.append(dialog);
  }
  await dialog.show();
  return undefined;
}

async function load(): Promise<Outcome<() => HelpDialog>> {
  try {
    const { HelpDialog: Made } = await import('./help-dialog.ts');
    return done(() => new Made());
  } catch {
    return failed('file/unreachable', 'help', 'The help cannot be loaded. Try again when you are connected.');
  }
}
