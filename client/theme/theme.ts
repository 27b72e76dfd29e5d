/** Which of the two looks the page wears: what the person chose here before, else what the system asks for. */

export type Theme = 'light' | 'dark';
const KEY = 'lampwright-theme';
const system = matchMedia('(prefers-color-scheme: dark)');

function chosen(): Theme | undefined {
  try {
    const kept = localStorage.getItem(KEY);
    return kept === 'light' || kept === 'dark' ? kept : undefined;
  } catch {
    return undefined; // storage may be closed to us; the system's setting then holds
  }
}

export const themeNow = (): Theme => chosen() ?? (system.matches ? 'dark' : 'light');

const put = () => {
  document.documentElement.dataset.theme = themeNow();
};

/** Call once, before anything is drawn. */
export function applyTheme(): void {
  put();
  system.addEventListener('change', put);
  // paper is light
  addEventListener('beforeprint', () => {
    document.documentElement.dataset.theme = 'light';
  });
  addEventListener('afterprint', put);
}

export function chooseTheme(theme: Theme): void {
  try {
    localStorage.setItem(KEY, theme);
  } catch {
    // remembered for this visit only
  }
  document.documentElement.dataset.theme = theme;
}
