/** What axe finds against a part of the page. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';

/** WCAG 2.2 A and AA, and axe's best practice. */
export const AXE_RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** Legacy mode only means: no other frames are looked into, and there are none. */
export const violationsOf = async (axe: AxeBuilder): Promise<string[]> =>
  (await axe.setLegacyMode().analyze()).violations.flatMap((v) => v.nodes.map((n) => `${v.id} at ${n.target.join(' ')}`));

/** within: a selector. */
export const axeFinds = (page: Page, within: string): Promise<string[]> =>
  violationsOf(new AxeBuilder({ page }).include(within).withTags(AXE_RULES));
