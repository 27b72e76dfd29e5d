/** Small marks on the bench at the things that findings are about: the shape says how bad it is, and each is a button that tells the rest. */
import { plain, type Ref, SEVERITY_NAMES } from '../../sim-core/index.ts';
import { type Box, U } from '../scene/geometry.ts';
import { el, layIn, short } from '../scene/svg.ts';
import { SEVERITY_SHAPES } from '../ui/severity-mark.ts';
import type { SaidFinding } from '../worker/protocol.ts';

/** What a hand or the focus does at a mark; `near` undefined: it has left. */
export interface AtMark {
  readonly findings: readonly SaidFinding[];
  readonly mark: Element;
  readonly does: 'near' | 'left' | 'open';
}

export interface FindingMarks {
  readonly root: SVGGElement;
  show(findings: readonly SaidFinding[]): void;
  /** the bench has been drawn again */
  place(where: (ref: Ref) => Box | undefined): void;
}

interface Mark {
  readonly root: SVGGElement;
  readonly shape: SVGGElement;
  findings: readonly SaidFinding[];
}

/** More marks than these hide the bench; the worst are shown, and the page tells of all. */
const MOST = 40;

export function makeFindingMarks(): FindingMarks {
  const root = el('g', { class: 'finding-marks', role: 'group', 'aria-label': 'Findings on the bench' });
  const marks = new Map<string, Mark>();
  let where: (ref: Ref) => Box | undefined = () => undefined;
  let last: readonly SaidFinding[] = [];

  const make = (): Mark => {
    const shape = el('g', { class: 'grown' });
    const mark: Mark = { root: el('g', { class: 'finding-mark', role: 'button', tabindex: 0 }, shape), shape, findings: [] };
    const tell = (does: AtMark['does']) => () =>
      mark.root.dispatchEvent(
        new CustomEvent<AtMark>('at-mark', { detail: { findings: mark.findings, mark: mark.root, does }, bubbles: true }),
      );
    mark.root.addEventListener('pointerenter', tell('near'));
    mark.root.addEventListener('focus', tell('near'));
    mark.root.addEventListener('pointerleave', tell('left'));
    mark.root.addEventListener('blur', tell('left'));
    mark.root.addEventListener('click', tell('open'));
    mark.root.addEventListener('keydown', (e) => {
      if (e.key !== 'Enter' && e.key !== ' ') return;
      e.preventDefault();
      tell('open')();
    });
    return mark;
  };

  const put = () => {
    const shown: SVGGElement[] = [];
    for (const [key, { at, findings }] of byPlace(last)) {
      const [worst] = findings;
      const box = where(at);
      if (!worst || !box || shown.length >= MOST) continue;
      const mark = marks.get(key) ?? make();
      marks.set(key, mark);
      mark.findings = findings;
      showMark(mark, at, worst, findings, box);
      shown.push(mark.root);
    }
    for (const [key, mark] of marks) if (!shown.includes(mark.root)) marks.delete(key);
    layIn(root, shown);
  };
  return {
    root,
    show(findings) {
      last = findings;
      put();
    },
    place(now) {
      where = now;
      put();
    },
  };
}

/** What is found at each thing, the worst first; what is said of several alike is found at each. */
function byPlace(findings: readonly SaidFinding[]): ReadonlyMap<string, { readonly at: Ref; readonly findings: SaidFinding[] }> {
  const places = new Map<string, { readonly at: Ref; readonly findings: SaidFinding[] }>();
  for (const f of findings)
    for (const at of f.at ? [f.at, ...f.also] : []) {
      const key = `${at.kind} ${at.id}`;
      const here = places.get(key) ?? { at, findings: [] };
      here.findings.push(f);
      places.set(key, here);
    }
  return places;
}

/** A thing no larger than this would be hidden by its own mark [pitch]; the mark then stands off its corner, and so far [drawing units, grown with it]. */
const SMALL = 3;
const OFF_CORNER = 9;

/** Attributes only where they differ, so that nothing flickers. */
function showMark({ root, shape }: Mark, at: Ref, worst: SaidFinding, findings: readonly SaidFinding[], box: Box): void {
  const more = findings.length > 1 ? ` And ${findings.length - 1} more here.` : '';
  const pin = at.kind === 'pin' || at.kind === 'point';
  // at the upper right corner; at a pin beside it, so that its level stays readable
  const [x, y] = [box.x + box.width - (pin ? 0.05 : 0), box.y + (pin ? -0.05 : 0)];
  const now: Readonly<Record<string, string>> = {
    transform: `translate(${short(x * U)} ${short(y * U)})`,
    'aria-label': `${SEVERITY_NAMES[worst.severity]}: ${plain(worst.says)}${more}`,
  };
  for (const [name, value] of Object.entries(now)) if (root.getAttribute(name) !== value) root.setAttribute(name, value);
  const off = !pin && Math.min(box.width, box.height) < SMALL ? OFF_CORNER : 0;
  if (shape.dataset.severity === worst.severity && shape.dataset.off === String(off)) return;
  shape.dataset.off = String(off);
  shape.dataset.severity = worst.severity;
  const { body, sign } = SEVERITY_SHAPES[worst.severity];
  const placed = { transform: `translate(${off} ${-off})` };
  shape.replaceChildren(
    el('circle', { r: 12, class: 'mark-hit', ...placed }),
    el('path', { d: body, class: 'mark-body', ...placed }),
    el('path', { d: sign, class: 'mark-sign', ...placed }),
  );
}
