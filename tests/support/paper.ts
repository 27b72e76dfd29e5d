/** What comes out of the printer: pages and their sizes, and whether anything on them is cut off. */
import type { Page } from 'playwright';

/** Sizes in points. */
export const PAPERS = [
  { name: 'A4', width: 595, height: 842 },
  { name: 'Letter', width: 612, height: 792 },
] as const;
type Paper = (typeof PAPERS)[number];

/** Sizes of a PDF's pages in points, as it says itself. */
export const pagesOf = (pdf: Buffer): Array<readonly [number, number]> =>
  [...pdf.toString('latin1').matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)].map((m) => [
    Math.round(Number(m[1])),
    Math.round(Number(m[2])),
  ]);

/** Does this while the page is laid out for the printer, as wide as what is left between the margins of 13 mm [px at 96 an inch]. */
export async function onPaper(page: Page, paper: Paper, look: () => Promise<void>): Promise<void> {
  const usual = page.viewportSize();
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: Math.floor((paper.width / 72 - 26 / 25.4) * 96), height: 1000 });
  await look();
  await page.emulateMedia({ media: null });
  if (usual) await page.setViewportSize(usual);
}

/** Texts on a printable page that are wider than what they stand in. */
export const clipped = (page: Page) =>
  page.evaluate(() => {
    const sheet = document.querySelector('.pages')!;
    const right = sheet.getBoundingClientRect().right + 0.5;
    return [...sheet.querySelectorAll('td, th, p, li, pre, h1, h2, h3, img')]
      .filter(
        (e) => e.getBoundingClientRect().right > right || (e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== 'inline'),
      )
      .map((e) => e.textContent?.slice(0, 40));
  });
