/** What an SRGS 1.0 grammar is once it has been read (W3C Recommendation 16 March 2004). */

/** Where something stands in a grammar file; both count from one. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** One branch of a set of alternatives (SRGS 2.4) with its weight (2.4.1); null where none is given. */
export interface Alternative {
  readonly weight: number | null;
  readonly expansion: Expansion;
}

/** A reference to a rule (SRGS 2.2). A null `uri` is a local reference; a null `rule` means the root of that grammar. */
export interface RuleReference {
  readonly kind: 'reference';
  /** As written, without the fragment; relative to the base of the grammar, or else to the grammar itself. */
  readonly uri: string | null;
  readonly rule: string | null;
  readonly mediaType: string | null;
  readonly place: Place;
}

/** A right-hand side (SRGS 2). `[x]` is a repeat of 0 to 1 (2.5); `()` is a sequence of nothing (2.3). */
export type Expansion =
  | { readonly kind: 'token'; readonly words: readonly string[]; readonly quoted: boolean }
  | { readonly kind: 'tag'; readonly content: string; readonly place: Place }
  | { readonly kind: 'special'; readonly name: SpecialRule }
  | RuleReference
  | { readonly kind: 'sequence'; readonly items: readonly Expansion[] }
  | { readonly kind: 'choice'; readonly alternatives: readonly Alternative[] }
  | {
      readonly kind: 'repeat';
      readonly item: Expansion;
      readonly min: number;
      /** Null: without bound. */
      readonly max: number | null;
      readonly probability: number | null;
    }
  /** A language attachment (SRGS 2.7) on a token or a group. */
  | { readonly kind: 'language'; readonly language: string; readonly item: Expansion };

/** SRGS 2.2.3. */
export const SPECIAL_RULES = ['NULL', 'VOID', 'GARBAGE'] as const;
export type SpecialRule = (typeof SPECIAL_RULES)[number];

export interface Rule {
  readonly name: string;
  readonly scope: 'public' | 'private';
  readonly expansion: Expansion;
  readonly place: Place;
}

/** `meta` and `http-equiv` declarations (SRGS 4.11.1). */
export interface Meta {
  readonly kind: 'meta' | 'http-equiv';
  readonly name: string;
  readonly content: string;
}

export interface Lexicon {
  readonly uri: string;
  readonly mediaType: string | null;
}

/** The header (SRGS 4.1 to 4.12). */
export interface Header {
  readonly encoding: string | null;
  readonly language: string | null;
  readonly mode: 'voice' | 'dtmf';
  readonly root: string | null;
  readonly tagFormat: string | null;
  readonly base: string | null;
  readonly lexicons: readonly Lexicon[];
  readonly metas: readonly Meta[];
  /** Contents of the tags that stand in the header (4.12). */
  readonly tags: readonly { readonly content: string; readonly place: Place }[];
}

export interface Grammar {
  /** Name or URI of the document; relative references are resolved against it. */
  readonly file: string;
  readonly form: 'abnf' | 'xml';
  readonly header: Header;
  readonly rules: readonly Rule[];
}

/**
 * What relative references of a grammar are resolved against before the grammar's own address; null where nothing is
 * declared. `base` comes first (SRGS 4.9), then `meta "base"` or `http-equiv "base"`: they stand for what the server
 * would have said about the document, which ranks second (4.9.1).
 */
export function baseOf({ base, metas }: Header): string | null {
  return base ?? metas.find(({ name }) => name.toLowerCase() === 'base')?.content ?? null;
}

/** The rules at which a grammar is entered where none is named: its root, else all public ones (SRGS 4.7). */
export function entryRules({ header, rules }: Grammar): readonly string[] {
  if (header.root !== null) return [header.root];
  return rules.filter(({ scope }) => scope === 'public').map(({ name }) => name);
}
