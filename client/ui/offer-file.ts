/** Files that the page offers for download, named after a title. */

/** 'Ferry ramp', 'plan.json' → 'ferry-ramp.plan.json' */
export const fileName = (title: string, extension: string): string =>
  `${
    title
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '') || 'bench'
  }.${extension}`;

/** Offers a file, named after a title. */
export function offerFile(title: string, extension: string, content: Blob): void {
  const url = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName(title, extension);
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
