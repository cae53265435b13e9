/** A person without a voice at the table: touch controls, keys, and a keyboard-style scanner. */
import { expect, type Page } from '@playwright/test';
import type { Assembly } from '../../../src/domain/component/component';
import type { Procedure, Stage } from '../../../src/domain/procedure';
import { mixedNumber } from '../../../src/domain/quantity';
import { burst } from './by-card';
import { expectedLength } from './packing';

/** Longer than the kiosk's guard against a second touch that was meant for the step before. */
const AFTER_A_STEP_MS = 550;

export class Hands {
  constructor(private readonly page: Page) {}

  prompt(): Promise<string | null> {
    return this.page.locator('html').getAttribute('data-prompt');
  }

  async expectScreen(name: string): Promise<void> {
    await expect(this.page.locator(`html[data-screen="${name}"]`)).toBeAttached({ timeout: 30_000 });
  }

  private async untilPromptLeaves(before: string | null, what: string): Promise<void> {
    await expect.poll(() => this.prompt(), { timeout: 10_000, message: `${what} changed nothing` }).not.toBe(before);
    await this.page.waitForTimeout(AFTER_A_STEP_MS);
  }

  /** Scans by the keyboard-style scanner, and waits for the next prompt. */
  async scan(payload: string): Promise<void> {
    const before = await this.prompt();
    await burst(this.page, payload);
    await this.untilPromptLeaves(before, `scanning ${payload}`);
  }

  /** Presses the control of a command and waits for the next prompt. */
  async press(command: string): Promise<void> {
    const before = await this.prompt();
    await this.page.locator(`[data-command="${command}"]`).click();
    await this.untilPromptLeaves(before, `pressing ${command}`);
  }

  /** Presses the function key of a command. */
  async key(key: string): Promise<void> {
    const before = await this.prompt();
    await this.page.keyboard.press(key);
    await this.untilPromptLeaves(before, `the key ${key}`);
  }

  /** Opens the pad of a command and enters whole digits, and sixteenths where there are some. */
  async enter(command: string, whole: number, fraction: string | null = null): Promise<void> {
    const before = await this.prompt();
    await this.page.locator(`[data-command="${command}"]`).click();
    const pad = this.page.locator('.pad');
    for (const digit of String(whole)) await pad.getByRole('button', { name: digit, exact: true }).click();
    if (fraction !== null) await pad.getByRole('button', { name: fraction, exact: true }).click();
    await pad.locator('.pad-go').click();
    await this.untilPromptLeaves(before, `entering ${whole}`);
  }

  /** Looks over every part of an assembly and finds nothing. */
  async lookOver({ components }: Assembly): Promise<void> {
    for (let part = 1; part <= components.length; part += 1) {
      await this.expectScreen('inspection');
      await this.press('nothingFound');
      await this.press('affirm');
    }
  }

  /** Counts all tools on the screen, and looks at the temporary items. */
  async account({ tools, temporaryItems }: Procedure): Promise<void> {
    for (const tool of tools) {
      await this.enter('count', tool.count);
      await this.press('affirm');
    }
    if (temporaryItems.length === 0) return;
    await this.press('itemsSeen');
    await this.press('affirm');
  }

  /** Does all of one stage by touch. */
  async work(procedure: Procedure, stage: Stage): Promise<void> {
    switch (stage.kind) {
      case 'confirm':
        return this.press('stageComplete');
      case 'count':
        await this.enter('count', stage.expected);
        return this.press('affirm');
      case 'stow':
        await this.press('stow');
        await this.enter('count', stage.plan.stows - 1);
        await this.press('affirm');
        return this.press('stageComplete');
      case 'measure': {
        const mixed = mixedNumber(expectedLength(procedure, stage));
        if (mixed === null) throw new Error(`${stage.id} is not measured in sixteenths`);
        const { fraction } = mixed;
        await this.enter('measured', mixed.whole, fraction === null ? null : `${fraction.over}/${fraction.under}`);
        return this.press('affirm');
      }
      case 'place':
        return this.press('itemPlaced');
      case 'remove':
        return this.press('itemRemoved');
    }
  }
}
