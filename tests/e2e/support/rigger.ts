/** A person at the table, as the tests see one: speaks real sound, lays real pictures, and reads the screen. */
import { expect, type Page } from '@playwright/test';
import type { Command } from '../../../src/domain/command';
import { makeCardPayload } from '../../../src/scan/symbology/card';
import { renderVoice } from '../../audio/render-voice';
import { labelPng } from '../../scan/pictures';
import { scanOn } from './by-card';

type Voice = 'slt' | 'awb' | 'kal16';
type Symbology = 'code128' | 'code39' | 'dataMatrix' | 'qr';

export interface Tally {
  spoken: number;
  /** Said again because the kiosk had not heard; a person does the same. */
  repeated: number;
  /** Values that the read-back showed to be heard wrongly; answered with "negative", as a person would. */
  misheard: number;
  shown: number;
  /** Command cards under the keyboard-style scanner: for what has been said once already. */
  cards: number;
}

/** What every read-back ends in: no phrase of the grammar. */
const ASKED = /Is that right\?$/;
const VOICES: readonly Voice[] = ['slt', 'awb', 'kal16'];
const TRIES = 3;

export class Rigger {
  readonly tally: Tally = { spoken: 0, repeated: 0, misheard: 0, shown: 0, cards: 0 };
  private turn = 0;

  constructor(private page: Page) {}

  /** After the browser was killed and opened again. */
  moveTo(page: Page): void {
    this.page = page;
  }

  /** Waits until the kiosk has finished speaking and its ear is open. */
  async untilListening(): Promise<void> {
    await expect(this.page.locator('html[data-ear="listening"]')).toBeAttached({ timeout: 90_000 });
  }

  /** Waits until the kiosk has spoken its prompt to the end, where it does not listen afterwards. */
  async untilQuiet(): Promise<void> {
    await expect(this.page.locator('html[data-speaking="false"]')).toBeAttached({ timeout: 90_000 });
  }

  prompt(): Promise<string | null> {
    return this.page.locator('html').getAttribute('data-prompt');
  }

  screen(): Promise<string | null> {
    return this.page.locator('html').getAttribute('data-screen');
  }

  async expectScreen(name: string): Promise<void> {
    await expect(this.page.locator(`html[data-screen="${name}"]`)).toBeAttached({ timeout: 30_000 });
  }

  async expectText(text: string | RegExp): Promise<void> {
    await expect(this.page.locator('body')).toContainText(text, { timeout: 15_000 });
  }

  /** Makes the sound once; resolves when its last sample has been played. */
  async sound(samples: Float32Array): Promise<number> {
    const base64 = Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength).toString('base64');
    return this.page.evaluate((data) => window.tableStub.say(data), base64);
  }

  /** Says something that is meant to change the prompt, and says it again where it was not heard, as a person would. */
  async say(text: string): Promise<void> {
    await this.untilListening();
    const before = await this.prompt();
    for (let tries = 0; tries < TRIES; tries += 1) {
      await this.untilListening();
      if ((await this.prompt()) !== before) return;
      await this.sayOnce(text);
      this.tally.spoken += 1;
      if (tries > 0) this.tally.repeated += 1;
      if (await this.promptChanged(before)) return;
    }
    throw new Error(
      `"${text}" changed nothing in ${TRIES} tries; screen: ${await this.page.locator('body').innerText()}`,
    );
  }

  /** Affirms what is being read back. */
  async affirm(): Promise<void> {
    expect(await this.readBack()).toMatch(ASKED);
    await this.say('affirm');
  }

  /** Scans a command card by the keyboard-style scanner, in the middle of a sentence if need be. */
  async scanCard(command: Command): Promise<void> {
    this.tally.cards += 1;
    await scanOn(this.page, makeCardPayload(command));
  }

  /** The same for something that is read back; affirmed by card only if it is `shown`. */
  async scanValue(command: Command, shown: string): Promise<void> {
    await this.scanCard(command);
    const readBack = await this.readBack();
    expect(readBack).toContain(shown);
    expect(readBack).toMatch(ASKED);
    await this.scanCard({ name: 'affirm' });
  }

  private async readBack(): Promise<string> {
    return (await this.page.locator('html').getAttribute('data-read-back')) ?? '';
  }

  /** Says a value, listens to its read-back, and affirms it only if it is `shown`. */
  async value(text: string, shown: string): Promise<void> {
    for (let tries = 0; tries < TRIES; tries += 1) {
      await this.say(text);
      const readBack = await this.readBack();
      if (readBack.includes(shown)) return this.affirm();
      this.tally.misheard += 1;
      if (readBack !== '') await this.say('negative');
    }
    throw new Error(`"${text}" was never read back as "${shown}"`);
  }

  /** One rendering, by the next of the voices. */
  async sayOnce(text: string): Promise<void> {
    const voice = VOICES[this.turn % VOICES.length] ?? 'slt';
    this.turn += 1;
    const { samples } = await renderVoice(voice, text);
    await this.sound(samples);
  }

  private async promptChanged(before: string | null): Promise<boolean> {
    for (let waited = 0; waited < 3_000; waited += 50) {
      if ((await this.prompt()) !== before) return true;
      await this.page.waitForTimeout(50);
    }
    return false;
  }

  /** Holds a label before the camera until the prompt changes, then takes it away. */
  async show(payload: string, symbology: Symbology): Promise<void> {
    const before = await this.prompt();
    const png = Buffer.from(await labelPng({ payload, symbology, scale: 4 })).toString('base64');
    await this.page.evaluate((data) => window.tableStub.show(data), `data:image/png;base64,${png}`);
    this.tally.shown += 1;
    await expect
      .poll(() => this.prompt(), { timeout: 15_000, message: `${payload} was held up and nothing happened` })
      .not.toBe(before);
    await this.page.evaluate(() => window.tableStub.show(null));
    // The eye counts a label as new only after it has been out of sight.
    await this.page.waitForTimeout(1_500);
  }
}
