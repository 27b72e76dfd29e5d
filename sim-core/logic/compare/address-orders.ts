/** Orders of address pins in which one image may be seen in another: pins are placed one after the other, and what they reach is compared at once. */
import { bitCount } from '../../units/bit-count.ts';
import { ColumnPairs } from './column-pairs.ts';
import { type Compared, MOST_WRONG } from './compared.ts';

/** Places of the search tree looked at, 32 rows each, and orders found, before it is given up. */
const PATIENCE = 60_000;
const ROWS = 32;
const MOST_ORDERS = 48;

export interface AddressOrder {
  readonly order: readonly number[];
  /** where data pins may be anything: what they are in all rows */
  readonly pairs: ColumnPairs | undefined;
}

export interface AddressOrders {
  readonly orders: readonly AddressOrder[];
  /** false: the search was given up, and there may be more */
  readonly complete: boolean;
}

/** What is done to addresses besides their order. */
interface Besides {
  /** the image is shifted by so many rows before the pins are exchanged; only where no pin is tied */
  readonly before?: number;
  /** address pins that are inverted after that, and rows by which all is shifted then */
  readonly inverted?: number;
  readonly after?: number;
}

/** All orders that leave at most a few bits wrong. anyData: data pins may be exchanged and inverted too, else they are as wanted. */
export function addressOrders(c: Compared, anyData: boolean, besides: Besides = {}, patience = PATIENCE): AddressOrders {
  return new OrderSearch(c, anyData, besides, patience).all();
}

class OrderSearch {
  /** wanted pins, those that matter first */
  private readonly sequence: readonly number[];
  private readonly wantedAt: Uint32Array;
  private readonly seenAt: Uint32Array;
  private readonly order: number[];
  private readonly used: boolean[];
  private readonly found: AddressOrder[] = [];
  private readonly after: number;
  private visited = 0;

  constructor(
    private readonly c: Compared,
    private readonly anyData: boolean,
    { before = 0, inverted = 0, after = 0 }: Besides,
    private readonly patience: number,
  ) {
    const { active, pins, wanted } = c;
    this.sequence = active;
    this.wantedAt = new Uint32Array(2 ** active.length);
    this.seenAt = new Uint32Array(2 ** active.length);
    const tied = wanted.care.findIndex((mask) => mask !== 0) & ~active.reduce((mask, pin) => mask | (1 << pin), 0);
    this.wantedAt[0] = tied;
    this.seenAt[0] = tied ^ inverted;
    for (const [i, pin] of active.entries())
      for (let k = 0; k < 2 ** i; k++) this.wantedAt[2 ** i + k] = (this.wantedAt[k] as number) | (1 << pin);
    const last = wanted.words.length - 1;
    if (before !== 0) for (const [i, a] of this.wantedAt.entries()) this.wantedAt[i] = (a - before) & last;
    this.after = after;
    this.order = new Array<number>(pins.address).fill(-1);
    this.used = new Array<boolean>(pins.address).fill(false);
    // a pin that is tied high is where it is
    for (let pin = 0; pin < pins.address; pin++) if ((tied >> pin) & 1) this.used[pin] = true;
  }

  all(): AddressOrders {
    const { c, anyData } = this;
    if (anyData) {
      const pairs = new ColumnPairs(c.pins.data);
      pairs.add(c.wanted, c.seen, this.wantedAt, this.seenAt, 0, 1);
      this.place(0, pairs, 0);
    } else {
      const wrong = this.wrongBits(0, 1);
      if (wrong <= MOST_WRONG) this.place(0, undefined, wrong);
    }
    return { orders: this.found, complete: this.visited <= this.patience && this.found.length < MOST_ORDERS };
  }

  private place(depth: number, pairs: ColumnPairs | undefined, wrong: number): void {
    const pin = this.sequence[depth];
    if (pin === undefined) {
      this.found.push({ order: this.completed(), pairs });
      return;
    }
    const { used, order, seenAt, c } = this;
    const rows = 2 ** depth;
    // its own place first, so that the orders found first change least
    for (let n = 0; n <= c.pins.address; n++) {
      const to: number = n === 0 ? pin : n - 1;
      if (used[to] || (n > 0 && to === pin)) continue;
      this.visited += Math.ceil(rows / ROWS);
      if (this.visited > this.patience || this.found.length >= MOST_ORDERS) return;
      for (let k = 0; k < rows; k++) seenAt[rows + k] = (seenAt[k] as number) ^ (1 << to);
      used[to] = true;
      order[pin] = to;
      if (pairs) {
        const more = new ColumnPairs(pairs.pins, pairs);
        more.add(c.wanted, c.seen, this.wantedAt, seenAt, rows, 2 * rows);
        if (more.least() <= MOST_WRONG) this.place(depth + 1, more, 0);
      } else {
        const sum = wrong + this.wrongBits(rows, 2 * rows, MOST_WRONG - wrong);
        if (sum <= MOST_WRONG) this.place(depth + 1, undefined, sum);
      }
      used[to] = false;
      order[pin] = -1;
    }
  }

  private wrongBits(from: number, to: number, most = MOST_WRONG): number {
    const { wanted, seen } = this.c;
    const last = wanted.words.length - 1;
    let wrong = 0;
    for (let i = from; i < to && wrong <= most; i++) {
      const [a, x] = [this.wantedAt[i] as number, ((this.seenAt[i] as number) + this.after) & last];
      wrong += bitCount(((wanted.words[a] as number) ^ (seen.words[x] as number)) & (wanted.care[a] as number) & (seen.care[x] as number));
    }
    return wrong;
  }

  /** Pins that make no difference: all pins turned end for end, if those that do are; else they stay, or take what is left in their order. */
  private completed(): number[] {
    const { order } = this;
    const last = order.length - 1;
    if (order.some((to, pin) => to >= 0 && to !== pin) && order.every((to, pin) => to < 0 || to === last - pin))
      return order.map((_, pin) => last - pin);
    const taken = new Set(order);
    const free = order.flatMap((_, pin) => (taken.has(pin) ? [] : [pin]));
    const stays = new Set(order.flatMap((to, pin) => (to < 0 && free.includes(pin) ? [pin] : [])));
    const rest = free.filter((pin) => !stays.has(pin));
    return order.map((to, pin) => (to >= 0 ? to : stays.has(pin) ? pin : (rest.shift() ?? pin)));
  }
}
