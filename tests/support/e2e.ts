/** A test function with a page of its own in a browser that all files of a worker share, and how long such a test waits. */
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright';
import { expect as withinPage } from 'playwright/test';
import { test as base, inject } from 'vitest';

/** For one thing to come [ms]. */
const LONGEST = 60_000;

/** test() with a page that nothing was opened in yet; what a context keeps, it keeps from all others. */
export const test = base
  .extend('browser', { scope: 'worker' }, async ({}, { onCleanup }): Promise<Browser> => {
    const executablePath = inject('executablePath');
    const browser = await chromium.launch(executablePath ? { executablePath } : {});
    onCleanup(() => browser.close());
    return browser;
  })
  .extend('context', async ({ browser }, { onCleanup }): Promise<BrowserContext> => {
    const context = await browser.newContext({
      baseURL: inject('url'),
      hasTouch: true,
      permissions: ['clipboard-read', 'clipboard-write'],
    });
    context.setDefaultTimeout(LONGEST);
    onCleanup(() => context.close());
    return context;
  })
  .extend('page', ({ context }): Promise<Page> => context.newPage());

/** Waits for what a page shows; so long only on a machine that has much else to do. */
export const eventually = withinPage.configure({ timeout: LONGEST });
export { expect } from 'vitest';
