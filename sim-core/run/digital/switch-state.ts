/** Where the switches of a running bench stand, and which moves of their contacts are still to come: a hand that moves again ends what is left of its last move. */
import type { Plan } from '../../../shared/plan.ts';

/** What a contact does at some moment after a hand has moved it. */
export interface ContactMove {
  readonly hand: string;
  readonly pole: number;
  readonly closed: boolean;
  /** counts what the hand has done to this pole */
  readonly turn: number;
}

export class SwitchStates {
  private positions: { [x: string]: boolean[] };
  /** by part: poles that were not set otherwise */
  private readonly own = new Map<string, boolean[]>();
  /** by part, then by pole */
  private readonly turns = new Map<string, number[]>();

  constructor(first: Plan['switches']) {
    this.positions = { ...first };
  }

  /** by part, then by pole; a list of poles that has been handed out stays as it was, the record of them does not */
  get switches(): Plan['switches'] {
    this.own.clear();
    return this.positions;
  }

  set(hand: string, pole: number, closed: boolean): void {
    const before = this.positions[hand] ?? [];
    if (before[pole] === closed) return;
    const poles = this.own.get(hand) ?? [...before];
    while (poles.length <= pole) poles.push(false);
    poles[pole] = closed;
    this.own.set(hand, poles);
    this.positions[hand] = poles;
  }

  /** a hand moves the pole to its new position: what the contact does then, and once more at the end of each of these */
  move(hand: string, pole: number, closed: boolean, rebounds: number): ContactMove[] {
    const now = this.turn(hand, pole);
    const moves: ContactMove[] = [];
    for (let k = 0; k <= rebounds; k++) moves.push({ hand, pole, closed: k % 2 === 0 ? closed : !closed, turn: now });
    return moves;
  }

  /** has no hand moved the pole since? */
  isLast({ hand, pole, turn: made }: ContactMove): boolean {
    return this.turns.get(hand)?.[pole] === made;
  }

  /** the bench has been put together again, with its switches so */
  begin(after: Plan['switches']): void {
    for (const [hand, poles] of this.turns)
      for (const pole of poles.keys()) if (this.at(this.positions, hand, pole) !== this.at(after, hand, pole)) this.turn(hand, pole);
    this.positions = { ...after };
    this.own.clear();
  }

  private turn(hand: string, pole: number): number {
    const poles = this.turns.get(hand) ?? [];
    this.turns.set(hand, poles);
    const now = (poles[pole] ?? 0) + 1;
    poles[pole] = now;
    return now;
  }

  private at(from: Plan['switches'], hand: string, pole: number): boolean {
    return from[hand]?.[pole] ?? false;
  }
}
