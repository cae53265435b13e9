/** Kills a Chromium that appends back to back, again and again, and looks each time what is left. */
import type { Page } from '@playwright/test';
import type { Fact } from '../../../src/domain/fact';
import { makeFactBytes } from '../../../src/record/chain/fact-bytes';
import { leafHash, makeHashHex } from '../../../src/record/chain/hash';
import { createTree } from '../../../src/record/chain/tree';
import type { Head } from '../../../src/record/ledger';
import { newProfile, removeProfile, startBrowser } from './browser-process';
import type { Inspection } from './page';

export interface KillReport {
  readonly kills: number;
  /** Appends whose answer reached this process before the kill. */
  readonly acknowledged: number;
  readonly acknowledgedFacts: number;
  /** Facts in the journal after the last kill; more than acknowledged, since an answer can die on its way. */
  readonly stored: number;
  readonly slowestOpenMs: number;
  /** What is wrong, in words; empty when nothing was lost. */
  readonly faults: readonly string[];
}

const JOURNAL = 'kill-runs';

/** `kills` kills on one profile; after each the same profile is opened, the whole journal checked and the state told. */
export async function killRuns(url: string, kills: number, tell: (sofar: KillReport) => void): Promise<KillReport> {
  const profile = await newProfile();
  const acknowledged: Head[] = [];
  const faults: string[] = [];
  let last: Inspection | null = null;
  let looked = 0;
  let slowestOpenMs = 0;
  const report = (done: number): KillReport => ({
    kills: done,
    acknowledged: acknowledged.length,
    acknowledgedFacts: acknowledged.reduce((most, { size }) => Math.max(most, size), 0),
    stored: last?.facts.length ?? 0,
    slowestOpenMs: Math.round(slowestOpenMs),
    faults,
  });
  try {
    for (let run = 0; run <= kills; run += 1) {
      const browser = await startBrowser(profile);
      try {
        const page = await browser.page(url);
        last = await page.evaluate(([name, packs]) => window.ledgerPage.inspect(name, packs), [
          JOURNAL,
          Array.from({ length: run }, (_, earlier) => `run-${earlier}`),
        ] as const);
        slowestOpenMs = Math.max(slowestOpenMs, last.msToOpen);
        // The heads since the last look, and the one before them: its root vouches for all that came earlier.
        const news = acknowledged.slice(Math.max(0, looked - 1));
        looked = acknowledged.length;
        faults.push(...faultsOf(last, news).map((fault) => `after kill ${run}: ${fault}`));
        tell(report(run));
        if (run < kills) acknowledged.push(...(await appendUntilKilled(page, run, browser.kill)));
      } finally {
        await browser.kill();
      }
    }
  } finally {
    await removeProfile(profile);
  }
  return report(kills);
}

/**
 * Lets the page append and kills it: every other run after a random while, the others at the very moment in which a
 * random answer arrives, where an answer given too early would be found out. Gives the answers that came.
 */
async function appendUntilKilled(page: Page, run: number, kill: () => Promise<void>): Promise<readonly Head[]> {
  const heads: Head[] = [];
  const killAt = run % 2 === 0 ? 1 + Math.floor(Math.random() * 60) : Number.POSITIVE_INFINITY;
  let killed: () => void = () => undefined;
  const dead = new Promise<void>((resolve) => (killed = resolve));
  await page.exposeBinding('acknowledge', (_, head: Head) => {
    heads.push(head);
    if (heads.length === killAt) void kill().then(killed);
    if (heads.length === 1 && killAt === Number.POSITIVE_INFINITY) {
      setTimeout(() => void kill().then(killed), Math.random() * 700);
    }
  });
  const appending = page.evaluate(([name, n]) => window.ledgerPage.appendForEver(name, n), [JOURNAL, run] as const);
  const ended = await Promise.race([
    dead.then(() => null),
    // The page dies with its browser; before that, its end is a failure of the append.
    appending.catch((error: unknown) => String(error)).then((why) => (heads.length > 0 ? dead.then(() => null) : why)),
  ]);
  if (ended !== null) throw new Error(`The page stopped before its first answer: ${String(ended)}`);
  return heads;
}

/** What is wrong with the journal, given every head that was acknowledged before. */
export function faultsOf(inspection: Inspection, acknowledged: readonly Head[]): string[] {
  const { opened, facts, damages, auditedHead } = inspection;
  if (!opened.ok) return [`not opened: ${opened.detail}`];
  const faults = damages.map(({ seq, detail }) => `damage at ${seq}: ${detail}`);
  if (facts.length !== opened.value.size) faults.push(`${facts.length} facts where the head says ${opened.value.size}`);
  facts.forEach((fact, i) => {
    if (fact.seq !== i) faults.push(`gap: fact ${fact.seq} in place ${i}`);
  });
  if (auditedHead?.root !== opened.value.root) faults.push('the audited root is not the head');

  // Recomputed here from the facts alone: the journal must have passed through every head that was acknowledged.
  const tree = createTree();
  for (const fact of facts) {
    const bytes = makeFactBytes(fact);
    if (bytes.ok) tree.append(leafHash(bytes.value));
  }
  for (const head of [...acknowledged, opened.value]) {
    if (head.size > tree.size()) faults.push(`lost: ${head.size} facts were acknowledged, ${tree.size()} are there`);
    else if (makeHashHex(tree.root(head.size)) !== head.root) faults.push(`the root at ${head.size} has changed`);
  }
  return [...faults, ...tornBatches(facts)];
}

/** The batches of the killed runs name their length, so one of which only a part is there shows. */
function tornBatches(facts: readonly Fact[]): string[] {
  const counts = new Map<string, number>();
  for (const { pack, body } of facts) {
    if (pack.startsWith('run-') && body.kind === 'counted')
      counts.set(`${pack} ${body.stage}`, (counts.get(`${pack} ${body.stage}`) ?? 0) + 1);
  }
  return [...counts]
    .filter(([name, count]) => !name.endsWith(`-of-${count}`))
    .map(([name, count]) => `torn: ${name} has ${count} facts`);
}
