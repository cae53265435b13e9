/** What the records page says of its own work. */
import type { Persistence } from '../../record/store/store';
import type { Head } from '../../record/ledger';
import type { Signer } from '../../record/verify/bytes/checkpoints';
import type { RecordsOutcome } from '../../screens/contract/records-view';

/** Findings beyond these are counted. */
const SHOWN = 8;

/** What the browser promises about keeping the journal. */
export const PERSISTENCE: Readonly<Record<Persistence, string>> = {
  granted: 'The browser has promised never to clear them by itself.',
  refused: 'The browser has not promised to keep them: let copies be made.',
  unknown: 'This browser does not say whether it keeps them: let copies be made.',
};

/**
 * Who vouches for a sound file. Only a signature that this kiosk's own key verified makes it this kiosk's; any other
 * key is one that the file itself brought along, and says nothing of whose it is.
 */
export function sayWhose(signers: readonly Signer[], own: string | null): string {
  const mine = signers.find(({ key }) => key === own);
  const last = signers.find(({ head }) => head)?.key ?? 'no key';
  if (mine?.head === true) return 'All of it is signed by this kiosk: its own key verified the last checkpoint.';
  const foreign = `by a key that the file itself names: whose it is is not known here. Compare it: ${last}`;
  if (mine === undefined) return `It is signed ${foreign}`;
  return `This kiosk’s own key verified earlier checkpoints, but the last one is signed ${foreign}`;
}

/** Seals of facts that this kiosk does not have any more are named for as long as it lives. */
export function sayLost(lost: readonly Head[]): readonly string[] {
  const newest = lost.toSorted((a, b) => a.size - b.size).at(-1);
  if (newest === undefined) return [];
  return [
    `An older copy was restored here: of what was sealed up to fact ${newest.size} (root ${newest.root}) a part is lost. ` +
      `Its ${lost.length} seals are kept.`,
  ];
}

/** Something was done. */
export function good(heading: string, lines: readonly string[]): RecordsOutcome {
  return { tone: 'good', heading, lines };
}

/** Something was not done, or is not as it should be. */
export function bad(heading: string, lines: readonly string[]): RecordsOutcome {
  return { tone: 'bad', heading, lines };
}

/** The findings of the verifier, one a line. */
export function linesOf(findings: readonly { line: number | null; what: string; detail: string }[]): readonly string[] {
  const lines = findings
    .slice(0, SHOWN)
    .map(({ line, detail }) => (line === null ? detail : `Line ${String(line)}: ${detail}`));
  const more = findings.length - SHOWN;
  return more > 0 ? [...lines, `And ${String(more)} more findings.`] : lines;
}
