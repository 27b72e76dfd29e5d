/** Small marks on the bench beside the things that findings are about: the shape says how bad it is, and each is a button that tells the rest. Everything else takes the pointer before them. */
import { sameValue } from '../../shared/same-value.ts';
import { plain, type Ref, SEVERITY_NAMES } from '../../sim-core/index.ts';
import { type Box, overlap, type Spot, U } from '../scene/geometry.ts';
import { type MarkRoom, markBox, placeMarks } from '../scene/mark-placement.ts';
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
  /** what is seen, over all else, and reached by keys; a pointer goes through it */
  readonly root: SVGGElement;
  /** what a pointer finds of them, under all else that is drawn */
  readonly targets: SVGGElement;
  show(findings: readonly SaidFinding[]): void;
  /** the bench has been drawn again */
  place(where: (ref: Ref) => Box | undefined, room: () => MarkRoom): void;
}

interface Mark {
  readonly root: SVGGElement;
  readonly shape: SVGGElement;
  /** from the mark to its thing, where that is not next to it */
  readonly line: SVGPathElement;
  readonly target: SVGCircleElement;
  /** where it stands, beside what box */
  at: { readonly spot: Spot; readonly box: Box } | undefined;
  findings: readonly SaidFinding[];
}

/** More marks than these hide the bench; the worst are shown, and the page tells of all. */
const MOST = 40;

export function makeFindingMarks(): FindingMarks {
  const root = el('g', { class: 'finding-marks', role: 'group', 'aria-label': 'Findings on the bench', 'pointer-events': 'none' });
  const targets = el('g', { 'aria-hidden': 'true' });
  const marks = new Map<string, Mark>();
  let where: (ref: Ref) => Box | undefined = () => undefined;
  let room: () => MarkRoom = () => ({ never: [], rather: [], wires: [] });
  let last: readonly SaidFinding[] = [];

  const put = () => {
    const shown: Array<readonly [Mark, Box]> = [];
    for (const [key, { at, findings }] of byPlace(last)) {
      const box = where(at);
      if (!box || shown.length >= MOST) continue;
      const mark = marks.get(key) ?? makeMark();
      marks.set(key, mark);
      mark.findings = findings;
      shown.push([mark, box]);
    }
    const all = shown.map(([mark]) => mark);
    for (const [key, mark] of marks) if (!all.includes(mark)) marks.delete(key);
    placeAll(shown, room);
    for (const mark of all) showMark(mark);
    layIn(
      root,
      all.map((m) => m.root),
    );
    layIn(
      targets,
      all.map((m) => m.target),
    );
  };
  return {
    root,
    targets,
    show(findings) {
      last = findings;
      put();
    },
    place(now, roomNow) {
      [where, room] = [now, roomNow];
      put();
    },
  };
}

/** A mark with what is told at it; it is still to be shown. */
function makeMark(): Mark {
  const shape = el('g', { class: 'grown' });
  const line = el('path', { class: 'mark-line' });
  const target = el('circle', { class: 'mark-target' });
  const mark: Mark = {
    root: el('g', { class: 'finding-mark', role: 'button', tabindex: 0 }, line, shape),
    shape,
    line,
    target,
    at: undefined,
    findings: [],
  };
  const tell = (does: AtMark['does']) => () =>
    mark.root.dispatchEvent(
      new CustomEvent<AtMark>('at-mark', { detail: { findings: mark.findings, mark: mark.root, does }, bubbles: true }),
    );
  target.addEventListener('pointerenter', tell('near'));
  mark.root.addEventListener('focus', tell('near'));
  // pressed, it may be a drag of what is under it
  for (const left of ['pointerleave', 'pointerdown']) target.addEventListener(left, tell('left'));
  mark.root.addEventListener('blur', tell('left'));
  for (const on of [target, mark.root]) on.addEventListener('click', tell('open'));
  mark.root.addEventListener('keydown', (e) => {
    if (e.key !== 'Enter' && e.key !== ' ') return;
    e.preventDefault();
    tell('open')();
  });
  return mark;
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

/** Those that stand well beside what they are about stay where they are; the others find a place. */
function placeAll(shown: ReadonlyArray<readonly [Mark, Box]>, room: () => MarkRoom): void {
  if (shown.length === 0) return;
  const now = room();
  const placed: Box[] = [];
  const free = (box: Box) => [...now.never, ...placed].every((b) => overlap(box, b) === 0);
  const fresh = shown.filter(([mark, box]) => {
    const stays = mark.at && sameValue(mark.at.box, box) && free(markBox(mark.at.spot));
    if (mark.at && stays) placed.push(markBox(mark.at.spot));
    return !stays;
  });
  const spots = placeMarks(
    fresh.map(([, box]) => box),
    { ...now, never: [...now.never, ...placed] },
  );
  for (const [i, [mark, box]] of fresh.entries()) mark.at = { spot: spots[i] ?? [box.x, box.y], box };
}

/** A mark farther from its thing than this has a line to it [pitch]. */
const APART = 1.2;

/** Attributes only where they differ, so that nothing flickers. */
function showMark({ root, shape, line, target, at, findings }: Mark): void {
  const [worst] = findings;
  if (!worst || !at) return;
  const more = findings.length > 1 ? ` And ${findings.length - 1} more here.` : '';
  const [x, y] = at.spot;
  const moved = `translate(${short(x * U)} ${short(y * U)})`;
  put(root, { transform: moved, 'aria-label': `${SEVERITY_NAMES[worst.severity]}: ${plain(worst.says)}${more}` });
  put(target, { transform: moved });
  const { box } = at;
  const [dx, dy] = [Math.max(box.x, Math.min(x, box.x + box.width)) - x, Math.max(box.y, Math.min(y, box.y + box.height)) - y];
  put(line, { d: Math.hypot(dx, dy) > APART ? `M0 0L${short(dx * U)} ${short(dy * U)}` : '' });
  if (shape.dataset.severity === worst.severity) return;
  shape.dataset.severity = worst.severity;
  const { body, sign } = SEVERITY_SHAPES[worst.severity];
  shape.replaceChildren(
    el('circle', { r: 11, class: 'mark-ring' }),
    el('path', { d: body, class: 'mark-body' }),
    el('path', { d: sign, class: 'mark-sign' }),
  );
}

function put(on: SVGElement, now: Readonly<Record<string, string>>): void {
  for (const [name, value] of Object.entries(now)) if (on.getAttribute(name) !== value) on.setAttribute(name, value);
}
