/** What a file holds that somebody has chosen or dropped: its bytes, or its text in whichever encoding it was saved. */
import { textOfFile } from '../../shared/file-text.ts';
import { done, failed, type Outcome } from '../../shared/outcome.ts';

/** Fails with `file/unreadable`: it was moved, or is a folder. */
export async function bytesIn(file: File): Promise<Outcome<Uint8Array>> {
  try {
    return done(new Uint8Array(await file.arrayBuffer()));
  } catch {
    return failed('file/unreadable', file.name, `${file.name} cannot be read: it is a folder, or was moved or deleted. Choose it again.`);
  }
}

/** Fails as well with `file/not-text`. */
export async function textIn(file: File): Promise<Outcome<string>> {
  const bytes = await bytesIn(file);
  return bytes.ok ? textOfFile(bytes.value, file.name) : bytes;
}
