/** Keys of the catalogue: which line a press types, how a key is written on this keyboard, and whether single keys work at all. */
import type { Command } from './command.ts';

/** Keyboards with a command key use it where others use Ctrl. */
const isMac = (): boolean => /mac|iphone|ipad/i.test(navigator.platform);

/** 'Mod+K' → 'Ctrl K' or '⌘ K' */
export const keyName = (key: string): readonly string[] => key.split(/\+(?=.)/).map((k) => (k === 'Mod' ? (isMac() ? '⌘' : 'Ctrl') : k));

const KEPT = 'lampwright-single-keys';

/** Keys without Ctrl can be turned off, for people whose hands or voices press them by chance (WCAG 2.2, 2.1.4). */
export const singleKeys = (): boolean => read() !== 'off';

function read(): string | null {
  try {
    return localStorage.getItem(KEPT);
  } catch {
    return null;
  }
}

export function setSingleKeys(on: boolean): void {
  try {
    localStorage.setItem(KEPT, on ? 'on' : 'off');
  } catch {
    // nothing can be kept here
  }
}

/** The line that a press types; undefined if it is no key of ours, or meant for the field that it was pressed in. */
export function commandOfKey(e: KeyboardEvent, commands: readonly Command[]): string | undefined {
  // on some keyboards ~ and < are typed with AltGr, which counts as Ctrl and Alt
  const third = e.getModifierState?.('AltGraph') ?? false;
  if (e.defaultPrevented || (e.altKey && !third) || e.isComposing) return undefined;
  const mod = !third && (e.ctrlKey || e.metaKey);
  const inField =
    e.target instanceof Element &&
    e.target.closest('input:not([type=checkbox]):not([type=radio]), textarea, select, [contenteditable]') !== null;
  if (inField && !(mod && e.key.toLowerCase() === 'k')) return undefined;
  if (!mod && !singleKeys()) return undefined;
  const letter = /^[a-z]$/i.test(e.key);
  const name = [mod && 'Mod', e.shiftKey && (mod || letter) && 'Shift', letter ? e.key.toUpperCase() : e.key].filter(Boolean).join('+');
  for (const { keys } of commands) if (keys && Object.hasOwn(keys, name)) return keys[name];
  return undefined;
}
