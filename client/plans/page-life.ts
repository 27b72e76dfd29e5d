/** The page as far as keeping a bench goes: its address, and its end. */

export interface PageLife {
  /** the whole address */
  readonly address: string;
  /** Puts another address in its place, without a visit of its own. */
  showAddress(address: string): void;
  /** The page goes, and whatever is under way is cut off. */
  whenItGoes(does: () => void): void;
  /** Before it goes the browser asks, if this answers true. */
  askBeforeItGoes(asks: () => boolean): void;
}

export const browserPage: PageLife = {
  get address() {
    return location.href;
  },
  showAddress: (address) => history.replaceState(null, '', address),
  whenItGoes: (does) => addEventListener('pagehide', does),
  askBeforeItGoes: (asks) =>
    addEventListener('beforeunload', (e) => {
      if (asks()) e.preventDefault();
    }),
};
