/** What the instruments beside the boards share: a case with lines of print, and posts at the edge that faces the boards. */
import type { PlanPart } from '../../../shared/plan.ts';
import type { Box, Spot } from '../geometry.ts';
import { U } from '../geometry.ts';
import { el } from '../svg.ts';

/** A post: its pin, its colour's name, and what is printed beside it. */
export interface Post {
  readonly pin: string;
  readonly spot: Spot;
  readonly look: 'plus' | 'minus' | 'out';
  readonly print: string;
}

export class Instrument {
  readonly box: Box;
  readonly postY: number;
  private readonly above: boolean;

  /** middle: of the boards, which its posts face */
  constructor(
    private readonly part: PlanPart,
    [width, height]: Spot,
    middle: Spot,
  ) {
    const [x, y] = part.spot ?? [0, 0];
    this.box = { x, y, width, height };
    this.above = y + height / 2 < middle[1];
    this.postY = this.above ? y + height : y;
  }

  drawCase(): SVGElement {
    const { x, y, width, height } = this.box;
    return el('rect', { x: x * U, y: y * U, width: width * U, height: height * U, rx: 9, class: 'supply-case' });
  }

  /** A line of print, so far below the upper edge [pitch]. */
  line(down: number, look: string, says: string): SVGTextElement {
    const { x, y } = this.box;
    return el('text', { x: (x + 0.7) * U, y: (y + down) * U, class: look }, says);
  }

  /** up: how far above its post the print stands where the boards are below [pitch] */
  drawPosts(posts: readonly Post[], look: string, up: number): SVGElement[] {
    return posts.map(({ pin, spot: [px, py], look: kind, print }) =>
      el(
        'g',
        { class: `post post-${kind}`, 'data-part': this.part.id, 'data-pin': pin },
        el('circle', { cx: px * U, cy: py * U, r: 8 }),
        el('circle', { cx: px * U, cy: py * U, r: 3.2, class: 'post-hole' }),
        el('text', { x: px * U, y: (py + (this.above ? -up : 1)) * U, class: look, 'aria-hidden': 'true' }, print),
      ),
    );
  }
}

export const terminalsOf = (posts: readonly Post[]): ReadonlyMap<string, Spot> => new Map(posts.map(({ pin, spot }) => [pin, spot]));
