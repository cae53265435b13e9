/** What the verifier can find: a short name for each kind of wrong, and where. */

export type FindingKind =
  // The bytes.
  | 'not-an-export'
  | 'newer'
  | 'header'
  | 'cut-short'
  | 'unreadable'
  /** Not in canonical bytes: a key twice, white space, another spelling of a number. */
  | 'spelling'
  /** Not of the form of its kind, or with a member that no kind has. */
  | 'form'
  | 'altered'
  | 'missing'
  | 'repeated'
  | 'out-of-order'
  | 'foreign'
  | 'seal'
  | 'proof'
  | 'root'
  | 'digest'
  // The checkpoints.
  | 'checkpoint'
  | 'signature'
  | 'key'
  /** The line of a printed card is not what its fact says. */
  | 'card'
  // What was done.
  | 'edition'
  | 'time'
  | 'who'
  | 'order'
  | 'hold'
  | 'identity'
  | 'check-in'
  | 'inspection'
  | 'tag'
  | 'restore'
  | 'count'
  | 'stow'
  | 'measure'
  | 'tool'
  | 'item'
  | 'correction'
  | 'record'
  | 'ended';

export interface Finding {
  /** Line of the file, from 1; null where the whole file is meant. */
  readonly line: number | null;
  /** Number of the fact, where one is concerned and known. */
  readonly seq: number | null;
  readonly what: FindingKind;
  /** One sentence. */
  readonly detail: string;
}

/** Takes down what was found at the place at hand. */
export type Note = (what: FindingKind, detail: string) => void;

/** The fact at hand, and where goes what is wrong with it. */
export interface At {
  readonly seq: number;
  readonly note: Note;
}
