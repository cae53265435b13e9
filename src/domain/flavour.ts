/**
 * Texts and numbers that look alike and must not be mixed. A flavour refuses another flavour where one is wanted, and
 * takes what has none: a literal, or what a schema has just checked. A brand that only a constructor can give would say
 * more, and every file and test would have to construct what it can simply write.
 */
declare const flavour: unique symbol;

/** A text or number of the flavour `Name`. */
export type Flavour<Base extends string | number, Name extends string> = Base & { readonly [flavour]?: Name };
