/** What a hand can do to a running bench. */
import type { Change } from '../document/changes.ts';

/** What a person can do to a running bench: set a pole, press or release a button, move a wire, edit, hold a light over a window. */
export type Action =
  /** one pole of a switch, or a supply's own switch (pole 0) */
  | { readonly do: 'set'; readonly part: string; readonly pole: number; readonly closed: boolean }
  | { readonly do: 'press'; readonly part: string }
  | { readonly do: 'release'; readonly part: string }
  /** pull one end of a wire and push it into another tie point; the supply may be on */
  | { readonly do: 'move-wire'; readonly wire: string; readonly end: 'from' | 'to'; readonly point: string }
  /** any edit of the plan, at once; the supply may be on, and what the edit is not about goes on: charges, chips, running write cycles */
  | { readonly do: 'edit'; readonly change: Change }
  /** hold a part's window under ultraviolet light for so long; covered: with an opaque label on it */
  | { readonly do: 'light'; readonly part: string; readonly seconds: number; readonly wattsPerCm2: number; readonly covered?: boolean };
