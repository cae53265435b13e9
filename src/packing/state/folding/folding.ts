/** A state while it is folded: the same members, open to change. */
import type { Fact, FactBody, FactKind } from '../../../domain/fact';
import type { Loft } from '../../../domain/loft';
import type { PackState } from '../pack-state';

export type Folding = {
  -readonly [K in keyof PackState]: PackState[K] extends ReadonlyMap<infer Key, infer Value>
    ? Map<Key, Value>
    : PackState[K] extends ReadonlySet<infer Item>
      ? Set<Item>
      : PackState[K];
};

type Bodies = { readonly [K in FactKind]: Extract<FactBody, { readonly kind: K }> };

interface FactWith<B> extends Omit<Fact, 'body'> {
  readonly body: B;
}

/** A fact of kind K. */
export type FactOf<K extends FactKind> = FactWith<Bodies[K]>;

/** What a fact of kind K changes. The loft is asked only for the procedure of a pack whose own facts hold none. */
export type Fold<K extends FactKind> = (folding: Folding, fact: FactOf<K>, loft: Loft) => void;

/** The folds of these kinds of facts. */
export type Folds<K extends FactKind> = { readonly [Kind in K]: Fold<Kind> };

/** Nothing has happened yet. */
export function blank(): Folding {
  return {
    packers: [],
    packer: null,
    identified: new Map(),
    markConflicts: [],
    agreed: null,
    frozen: null,
    checkIn: null,
    inspected: new Map(),
    checked: null,
    recheckFailed: null,
    latestDay: null,
    toolsOut: new Map(),
    toolsAccounted: new Map(),
    toolsBack: new Map(),
    itemsAccounted: new Set(),
    stages: new Map(),
    releases: new Map(),
    itemsIn: new Set(),
    itemsPlaced: new Map(),
    itemsRemoved: new Map(),
    outside: null,
    returns: [],
    reopenings: [],
    outsides: [],
    verdictGivers: new Set(),
    called: new Set(),
    spent: new Set(),
    jumps: [],
    standingBySince: null,
    lastActAt: null,
    correctable: null,
    signed: null,
    cardPlaced: false,
    stopped: null,
    ended: null,
  };
}
