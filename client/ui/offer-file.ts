/** Files that the page offers for download, named after a title. */
import { fileName } from '../../shared/file-name.ts';

/** Offers a file, named after a title. */
export function offerFile(title: string, extension: string, content: Blob): void {
  const url = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName(title, extension);
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
