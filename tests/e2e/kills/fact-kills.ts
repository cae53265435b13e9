/** One whole pack in which the browser is killed at fact boundaries, again and again, and taken up each time. */
import type { Page } from '@playwright/test';
import type { Fact } from '../../../src/domain/fact';
import { removeProfile } from '../ledger/browser-process';
import { nextScan, placeAfter, shownBy, burst, type PackPlan } from '../support/by-card';
import { newProfile, startChromium, type RunningChromium } from '../support/chromium-process';
import { readJournal } from '../support/read-journal';
import { errorsOf, startPage } from '../support/start-page';
import { onStored } from '../support/stored-hook';

/** When the kill comes: as the browser calls the append complete, or as soon as the screen has changed by it. */
export type Moment = 'stored' | 'shown';

export interface KillPlan {
  /** Whether to kill after the append of these kinds of fact, which is the `ordinal`-th of the pack, from 1. */
  atFacts(kinds: readonly string[], ordinal: number): Moment | null;
  /** Whether to kill while this question waits for its answer. */
  atQuestion(prompt: string): boolean;
}

export interface FactKillReport {
  /** Appends of the pack, those that only say that it was taken up again left out. */
  readonly boundaries: number;
  readonly facts: number;
  readonly kills: { stored: number; shown: number; restarted: number; question: number };
  readonly seconds: number;
  readonly slowestReopenMs: number;
  /** What is wrong, in words; empty when nothing was lost. */
  readonly faults: readonly string[];
}

interface Finish {
  readonly report: FactKillReport;
  /** Of the browser that was opened after the last kill. */
  readonly page: Page;
  readonly close: () => Promise<void>;
}

/** Packs until the pack is closed, killing as planned; the page that is left stands at the record or at the start. */
export async function packWithKills(baseURL: string, plan: PackPlan, kills: KillPlan): Promise<Finish> {
  const profile = await newProfile();
  const killed = new KilledPack(baseURL, plan, { profile, kills });
  const close = async (): Promise<void> => {
    await killed.chromium?.kill();
    await removeProfile(profile);
  };
  try {
    return { ...(await killed.run()), close };
  } catch (error) {
    await close();
    throw error;
  }
}

/** A person with a scanner needs two or three scans for a fact, killed or not; more than this goes in circles. */
const MOST_SCANS = 300;

class KilledPack {
  chromium: RunningChromium | null = null;
  /** Texts of every fact that was acknowledged, in order. */
  private readonly acknowledged: string[] = [];
  private readonly faults: string[] = [];
  private readonly asked = new Set<string>();
  private readonly kills = { stored: 0, shown: 0, restarted: 0, question: 0 };
  private boundaries = 0;
  private slowestReopenMs = 0;
  /** The kill that is owed as soon as the screen shows what was stored. */
  private owed = false;
  private dying: Promise<void> | null = null;

  constructor(
    private readonly baseURL: string,
    private readonly plan: PackPlan,
    private readonly setup: { readonly profile: string; readonly kills: KillPlan },
  ) {}

  async run(): Promise<{ report: FactKillReport; page: Page }> {
    const from = Date.now();
    let page = await this.open();
    for (let scans = 0; scans < MOST_SCANS; scans += 1) {
      const shown = await this.alive(shownBy(page));
      const payload = shown === null ? null : nextScan(this.plan, this.facts(), shown);
      if (shown !== null && payload === null) {
        const report = {
          boundaries: this.boundaries,
          facts: this.acknowledged.length,
          kills: this.kills,
          seconds: Math.round((Date.now() - from) / 1_000),
          slowestReopenMs: this.slowestReopenMs,
          faults: this.faults,
        };
        return { report, page };
      }
      if (shown !== null && payload !== null) await this.act(page, payload, shown.prompt);
      if (this.dying !== null) {
        await this.dying;
        page = await this.open();
      }
    }
    throw new Error('the pack goes in circles');
  }

  private facts(): readonly Fact[] {
    return this.acknowledged.map((text) => JSON.parse(text) as Fact);
  }

  /** The answer of a page, or null when it was killed meanwhile. */
  private async alive<T>(asking: Promise<T>): Promise<T | null> {
    try {
      const answer = await asking;
      return this.dying === null ? answer : null;
    } catch (error) {
      if (this.dying === null) throw error;
      return null;
    }
  }

  private kill(why: keyof KilledPack['kills']): void {
    if (this.dying !== null || this.chromium === null) return;
    this.kills[why] += 1;
    this.dying = this.chromium.kill();
  }

  private async act(page: Page, payload: string, before: string): Promise<void> {
    const facts = this.acknowledged.length;
    if ((await this.alive(burst(page, payload).then(() => true))) === null) return;
    const changed = page.waitForFunction((prompt) => document.documentElement.dataset['prompt'] !== prompt, before, {
      polling: 10,
      timeout: 15_000,
    });
    if ((await this.alive(changed)) === null) return;
    if (this.owed) {
      this.owed = false;
      return this.kill('shown');
    }
    const shown = await this.alive(shownBy(page));
    if (shown === null || shown.readBack === '' || this.acknowledged.length !== facts) return;
    // The same question comes again after the kill, under a key of its own.
    if (this.asked.has(shown.readBack) || !this.setup.kills.atQuestion(shown.readBack)) return;
    this.asked.add(shown.readBack);
    this.kill('question');
  }

  private stored(texts: readonly string[]): void {
    this.acknowledged.push(...texts);
    const kinds = texts.map((text) => (JSON.parse(text) as Fact).body.kind);
    const restarted = kinds.includes('restarted');
    if (!restarted) this.boundaries += 1;
    const moment = this.setup.kills.atFacts(kinds, this.boundaries);
    if (restarted) {
      if (moment !== null) this.kill('restarted');
    } else if (moment === 'stored') this.kill('stored');
    else this.owed = moment === 'shown';
  }

  /** Starts the browser on the profile, waits until the pack is taken up, and looks at what is there. */
  private async open(): Promise<Page> {
    for (;;) {
      const from = Date.now();
      this.dying = null;
      this.owed = false;
      const chromium = await startChromium(this.setup.profile);
      this.chromium = chromium;
      await onStored(chromium.context, (texts) => this.stored(texts));
      const page = await this.alive(this.arrive(chromium));
      if (page !== null) {
        this.slowestReopenMs = Math.max(this.slowestReopenMs, Date.now() - from);
        if ((await this.alive(this.look(page).then(() => true))) !== null) return page;
      }
      await this.dying;
    }
  }

  private async arrive({ context }: RunningChromium): Promise<Page> {
    const page = await startPage(context, this.baseURL, { deny: ['audio', 'video'] });
    const open = this.acknowledged.length > 0 && !this.facts().some(({ body }) => body.kind === 'packClosed');
    await page.waitForFunction(
      (inPack) => {
        const { screen } = document.documentElement.dataset;
        const text = document.body.innerText;
        return inPack ? screen !== 'start' && text.includes('Back after a break') : screen === 'start';
      },
      open,
      { polling: 20, timeout: 30_000 },
    );
    return page;
  }

  private async look(page: Page): Promise<void> {
    const shown = await shownBy(page);
    const text = await page.locator('body').innerText();
    const journal = await readJournal(page);
    const facts = this.facts();
    const where = `after fact ${facts.length - 1}`;
    const fault = (what: string): void => void this.faults.push(`${where}: ${what}`);
    const stored = journal.map((fact) => JSON.stringify(fact));
    facts.forEach((fact, seq) => {
      if (stored[seq] !== JSON.stringify(fact)) fault(`lost or changed: fact ${seq}, ${fact.body.kind}`);
    });
    if (stored.length > facts.length) fault(`${stored.length - facts.length} facts that nobody was told of`);
    if (new Set(journal.map(({ seq }) => seq)).size !== journal.length) fault('a number is there twice');
    if (new Set(journal.map(({ pack }) => pack)).size > 1) fault('another pack was begun');
    const place = facts.some(({ body }) => body.kind === 'packClosed')
      ? { screen: 'start', title: '' }
      : placeAfter(this.plan, facts);
    if (shown.screen !== place.screen) fault(`at ${shown.screen} and not at ${place.screen}`);
    if (!text.includes(place.title)) fault(`"${place.title}" is not on the screen`);
    if (shown.readBack !== '') fault(`asks "${shown.readBack}" by itself`);
    if (shown.inspecting) fault('an inspector counts as present without a new scan');
    for (const error of errorsOf(page)) fault(error);
  }
}
