/** What the verifier must know over all packs of a journal: scans that were used, and procedures that were followed. */
import type { Procedure } from '../../domain/procedure';
import { canonicalText } from './canonical';
import { hexAt, sha256 } from './sha256';

interface Content {
  readonly digest: string;
  /** The fact that held it first. */
  readonly seq: number;
}

export class Journal {
  /** Every scan that was used in any pack: each counts once. */
  readonly spent = new Set<string>();
  private readonly procedures = new Map<string, Content>();

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
