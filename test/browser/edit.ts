/** Editing the sheet as a person does, who goes on when the screen shows what was done last: keys typed before that get lost or go elsewhere. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** Goes to cells by the name box, and waits until keys go to the sheet again. */
export async function goTo(page: Page, address: string): Promise<void> {
  const box = page.locator('#sheet input').first();
  await box.fill(address);
  await box.press('Enter');
  await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-u-comp'))).toBe('editor');
}

/** Changes the formula that is being typed, and waits until the formula bar shows it; it is a picture, so it has no text to wait for. */
export async function edit(page: Page, change: () => Promise<void>): Promise<void> {
  const bar = page.locator('[data-u-comp="formula-bar"]');
  const before = await bar.screenshot();
  await change();
  await expect.poll(async () => (await bar.screenshot()).equals(before)).toBe(false);
}
