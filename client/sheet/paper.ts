/** Which paper a printable page is laid out for; the choice holds for all of them while the program is open. */
import { html, type ReactiveController, type ReactiveControllerHost } from 'lit';

const PAPERS = { A4: 'A4 portrait', Letter: 'letter portrait' } as const;
type Paper = keyof typeof PAPERS;

let chosen: Paper = 'A4';

/** Tells the printer while its host is on the page. */
export class PaperChoice implements ReactiveController {
  private readonly size = document.createElement('style');

  constructor(private readonly host: ReactiveControllerHost) {
    host.addController(this);
  }

  hostConnected() {
    document.head.append(this.size);
    this.choose(chosen);
  }

  hostDisconnected() {
    this.size.remove();
  }

  private choose(paper: Paper) {
    chosen = paper;
    this.size.textContent = `@page { size: ${PAPERS[paper]}; margin: 14mm 13mm 15mm;
      @bottom-right { content: 'page ' counter(page) ' of ' counter(pages); font: 8pt sans-serif; color: #444; } }
      @page on-its-side { size: ${paper} landscape; margin: 14mm 13mm; }`;
    this.host.requestUpdate();
  }

  /** The bar above a printable page. back: address to leave it by; more: other choices. */
  bar(back: string, ready: boolean, more: unknown) {
    return html`<div class="sheet-bar">
      <a href=${back}>Back to the bench</a>
      <fieldset><legend class="visually-hidden">Paper</legend>
        ${(Object.keys(PAPERS) as Paper[]).map(
          (p) => html`<label><input type="radio" name="paper" .checked=${p === chosen} @change=${() => this.choose(p)} /> ${p}</label>`,
        )}
      </fieldset>
      ${more}
      <button type="button" class="act" ?disabled=${!ready} @click=${() => print()}>Print</button>
    </div>`;
  }
}
