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

export interface SwitchStates {
  /** by part, then by pole; a list of poles that has been handed out stays as it was, the record of them does not */
  readonly hands: Plan['hands'];
  stand(hand: string, pole: number, closed: boolean): void;
  /** a hand moves the pole to where it shall stand: what the contact does then, and once more at the end of each of these */
  move(hand: string, pole: number, closed: boolean, rebounds: number): ContactMove[];
  /** has no hand moved the pole since? */
  isLast(move: ContactMove): boolean;
  /** the bench has been put together anew, with its switches so */
  begin(hands: Plan['hands']): void;
}

export function makeSwitchStates(first: Plan['hands']): SwitchStates {
  let hands = { ...first };
  /** by part: poles that nobody else has been given */
  const own = new Map<string, boolean[]>();
  /** by part, then by pole */
  const turns = new Map<string, number[]>();
  const turn = (hand: string, pole: number): number => {
    const poles = turns.get(hand) ?? [];
    turns.set(hand, poles);
    const now = (poles[pole] ?? 0) + 1;
    poles[pole] = now;
    return now;
  };
  const at = (from: Plan['hands'], hand: string, pole: number): boolean => from[hand]?.[pole] ?? false;
  return {
    get hands() {
      own.clear();
      return hands;
    },
    stand(hand, pole, closed) {
      const before = hands[hand] ?? [];
      if (before[pole] === closed) return;
      const poles = own.get(hand) ?? [...before];
      while (poles.length <= pole) poles.push(false);
      poles[pole] = closed;
      own.set(hand, poles);
      hands[hand] = poles;
    },
    move(hand, pole, closed, rebounds) {
      const now = turn(hand, pole);
      const moves: ContactMove[] = [];
      for (let k = 0; k <= rebounds; k++) moves.push({ hand, pole, closed: k % 2 === 0 ? closed : !closed, turn: now });
      return moves;
    },
    isLast: ({ hand, pole, turn: made }) => turns.get(hand)?.[pole] === made,
    begin(after) {
      for (const [hand, poles] of turns)
        for (const pole of poles.keys()) if (at(hands, hand, pole) !== at(after, hand, pole)) turn(hand, pole);
      hands = { ...after };
      own.clear();
    },
  };
}
