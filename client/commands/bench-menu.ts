/** The menu at the pointer: what can be done with the thing there, by click, touch or arrow keys. */
import { html } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import { LightElement } from '../ui/light-element.ts';
import type { MenuLine } from './menu-lines.ts';

/** It stays so far from the window's edges [px]. */
const EDGE = 8;

@customElement('bench-menu')
export class BenchMenu extends LightElement {
  @state() private lines: readonly MenuLine[] = [];
  @query('[role=menu]') private readonly menu!: HTMLElement;
  /** what had the focus before */
  private focusedBefore: Element | null = null;

  /** At a place in the window [px]. */
  async open(lines: readonly MenuLine[], x: number, y: number): Promise<void> {
    this.lines = lines;
    this.focusedBefore = document.activeElement;
    await this.updateComplete;
    const { menu } = this;
    menu.showPopover();
    const within = (at: number, size: number, room: number) => Math.max(EDGE, Math.min(at, room - size - EDGE));
    menu.style.left = `${within(x, menu.offsetWidth, innerWidth)}px`;
    menu.style.top = `${within(y, menu.offsetHeight, innerHeight)}px`;
    this.buttons[0]?.focus();
  }

  private get buttons(): readonly HTMLElement[] {
    return [...this.menu.querySelectorAll<HTMLElement>('[role=menuitem]')];
  }

  private readonly keys = (e: KeyboardEvent) => {
    const { buttons } = this;
    const at = buttons.indexOf(document.activeElement as HTMLElement);
    const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: buttons.length - 1 }[e.key];
    if (e.key === 'Tab') this.menu.hidePopover();
    // no key of the bench is meant while the menu is open
    e.stopPropagation();
    if (to === undefined) return;
    e.preventDefault();
    buttons.at(to % buttons.length)?.focus();
  };

  private take(line: MenuLine) {
    this.menu.hidePopover();
    this.dispatchEvent(new CustomEvent<MenuLine>('menu-line', { detail: line }));
  }

  private readonly toggled = (e: Event) => {
    const before = this.focusedBefore;
    if ((e as ToggleEvent).newState === 'closed' && (before instanceof HTMLElement || before instanceof SVGElement))
      before.focus({ preventScroll: true });
  };

  protected override render() {
    return html`<div class="bench-menu" role="menu" aria-label="What can be done here" popover @keydown=${this.keys} @toggle=${this.toggled}>
      ${this.lines.map((line) => html`<button type="button" role="menuitem" @click=${() => this.take(line)}>${line.says}</button>`)}
    </div>`;
  }
}
