/** What the verifier must know over all packs of a journal: scans that were used, and procedures that were followed. */
import type { Fact } from '../../../domain/fact';
import type { Procedure } from '../../../domain/procedure';
import { dayNumber } from '../sums/calendar';
import { canonicalText } from '../bytes/canonical';
import { hexAt, sha256 } from '../bytes/sha256';

interface Content {
  readonly digest: string;
  /** The fact that held it first. */
  readonly seq: number;
}

/** A place in the journal where the clock did not go on as time did. No finding by itself: it excuses nothing either. */
export interface Jump {
  readonly seq: number;
  readonly from: string;
  readonly to: string;
  readonly daylightSaving: boolean;
}

export class Journal {
  /** The latest day that any fact so far was made on, or knew of; empty before the first. */
  latestDay = '';
  readonly jumps: Jump[] = [];
  private lastAt: string | null = null;
  private jumpedTo: string | null = null;

  /** Every scan that was used in any pack: each counts once. */
  readonly spent = new Set<string>();
  private readonly procedures = new Map<string, Content>();

  /** Whether the fact stands behind the ones ahead of it in time, in whichever pack, or a jump of the clock says why not. */
  enter({ seq, at, body }: Fact): boolean {
    const ms = Date.parse(at);
    const before = this.lastAt === null ? Number.NEGATIVE_INFINITY : Date.parse(this.lastAt);
    if (body.kind === 'clockJumped') {
      this.jumps.push({ seq, from: body.from, to: body.to, daylightSaving: body.daylightSaving === true });
      this.jumpedTo = body.to;
    }
    // Putting a journal back is another computer's clock, and says so by itself.
    const sound = ms >= before || this.jumpedTo !== null || body.kind === 'restored';
    if (body.kind !== 'clockJumped') this.jumpedTo = null;
    this.lastAt = at;
    const known = body.kind === 'packOpened' || body.kind === 'restarted' ? (body.journalDay ?? '') : '';
    for (const day of [at.slice(0, 10), known]) {
      if (Number.isFinite(dayNumber(day)) && !(dayNumber(day) <= dayNumber(this.latestDay))) this.latestDay = day;
    }
    return sound;
  }

  /** The days by which an act of this moment is judged: its own, and the latest that the journal knew. */
  daysAt(at: string): readonly string[] {
    const today = at.slice(0, 10);
    return dayNumber(this.latestDay) > dayNumber(today) ? [today, this.latestDay] : [today];
  }

  /** What an earlier fact held under this id and revision, if that was something else; null otherwise. */
  otherContent({ id, revision }: Procedure, digest: string, seq: number): Content | null {
    const key = JSON.stringify([id, revision]);
    const before = this.procedures.get(key);
    if (before === undefined) this.procedures.set(key, { digest, seq });
    return before === undefined || before.digest === digest ? null : before;
  }
}

/** SHA-256 in hex of the procedure as a fact holds it. */
export function digestOfProcedure(procedure: Procedure): string {
  return hexAt(sha256(new TextEncoder().encode(canonicalText(procedure) ?? '')));
}
