/** A picture of the bench that stands alone: the drawing as it is now, on paper, with its styles and letters inside. */
import { type Box, U } from './geometry.ts';

/** Margin round the drawing [pitch]. */
const MARGIN = 1;
/** Pixels to a drawing unit in a PNG, and its longest side [px]. */
const [PNG_SCALE, PNG_MOST] = [2, 8000];
const NOT_DRAWN = '.wire-hit, .hit, .finding-marks, .picks-under, .picks-over, .focus-ring, .wire-halo, title';
/** Only rules that can concern a drawing are taken along; the page's own stay behind. */
const PAGE_ONLY = /^(html|body|lampwright-app|aside|button|input|\.desk|\.corner|\.tools|side-panel|timing-diagram|meter-panel)\b/;

/** The drawing as SVG text, with the page's fonts inside. */
export async function svgPicture(layers: readonly SVGGElement[], defs: SVGDefsElement, box: Box, title: string): Promise<string> {
  const view = [box.x - MARGIN, box.y - MARGIN, box.width + 2 * MARGIN, box.height + 2 * MARGIN].map((p) => p * U);
  const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  svg.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  svg.setAttribute('viewBox', view.join(' '));
  svg.setAttribute('width', String(view[2]));
  svg.setAttribute('height', String(view[3]));
  const { rules, fonts } = stylesOfPage();
  const style = document.createElementNS('http://www.w3.org/2000/svg', 'style');
  style.textContent = [...(await Promise.all(fonts.map(embedded))), ...rules].join('\n');
  const name = document.createElementNS('http://www.w3.org/2000/svg', 'title');
  name.textContent = title;
  const paper = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
  for (const [k, v] of Object.entries({ x: view[0], y: view[1], width: view[2], height: view[3], class: 'paper' }))
    paper.setAttribute(k, String(v));
  const scene = document.createElementNS('http://www.w3.org/2000/svg', 'g');
  scene.setAttribute('class', 'scene');
  scene.dataset.detail = 'near';
  scene.dataset.names = 'flat';
  for (const layer of layers) scene.append(...[...layer.cloneNode(true).childNodes]);
  for (const e of scene.querySelectorAll(NOT_DRAWN)) e.remove();
  for (const e of scene.querySelectorAll('.picked, .spoken, .pointed')) e.classList.remove('picked', 'spoken', 'pointed');
  for (const e of scene.querySelectorAll('[tabindex]')) e.removeAttribute('tabindex');
  svg.append(name, style, defs.cloneNode(true), paper, scene);
  return new XMLSerializer().serializeToString(svg);
}

/** The same as a PNG. */
export async function pngPicture(svg: string): Promise<Blob> {
  const image = new Image();
  const url = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    image.src = url;
    await image.decode();
    const scale = Math.min(PNG_SCALE, PNG_MOST / Math.max(image.naturalWidth, image.naturalHeight));
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(image.naturalWidth * scale);
    canvas.height = Math.round(image.naturalHeight * scale);
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((done, fail) =>
      canvas.toBlob((b) => (b ? done(b) : fail(new Error('A canvas of this size gave no picture.'))), 'image/png'),
    );
  } finally {
    URL.revokeObjectURL(url);
  }
}

/** Rules of the page that a drawing may need, without the dark theme's and without those for print and narrow windows. */
function stylesOfPage(): { readonly rules: readonly string[]; readonly fonts: readonly CSSFontFaceRule[] } {
  const rules: string[] = ['.paper { fill: var(--page); } text { font-family: var(--sans); fill: var(--ink); }'];
  const fonts: CSSFontFaceRule[] = [];
  for (const sheet of document.styleSheets)
    for (const rule of sheet.cssRules) {
      if (rule instanceof CSSFontFaceRule) fonts.push(rule);
      else if (
        rule instanceof CSSStyleRule &&
        !/data-theme|data-size|:hover|:focus/.test(rule.selectorText) &&
        !PAGE_ONLY.test(rule.selectorText)
      )
        rules.push(rule.cssText);
    }
  return { rules, fonts };
}

/** A font's rule with its file inside; where it can't be had, the rule is left out and the reader's own letters serve. */
async function embedded(rule: CSSFontFaceRule): Promise<string> {
  const url = /url\("?([^")]+)"?\)/.exec(rule.style.getPropertyValue('src'))?.[1];
  if (!url) return '';
  try {
    const bytes = new Uint8Array(await (await fetch(new URL(url, rule.parentStyleSheet?.href ?? document.baseURI))).arrayBuffer());
    let text = '';
    for (let i = 0; i < bytes.length; i += 0x8000) text += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
    return rule.cssText.replace(/url\([^)]*\)/, `url("data:font/woff2;base64,${btoa(text)}")`);
  } catch {
    return '';
  }
}
