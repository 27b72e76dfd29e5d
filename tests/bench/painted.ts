/** The end of the frame that is under way, as a page can wait for it. */

/** What a page's window has once PAINTED has run in it. */
export interface Painted {
  painted(): Promise<void>;
}

/** For `addInitScript`: a message sent within a frame's callback is heard right after that frame. */
export const PAINTED = `
  window.painted = () => new Promise((done) => {
    requestAnimationFrame(() => {
      const after = new MessageChannel();
      after.port1.onmessage = () => done();
      after.port2.postMessage(0);
    });
  });`;
