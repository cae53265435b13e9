/** The form of a value, held to the letter: what must be there, what may be there, and nothing else. */

export type Form = (value: unknown) => boolean;

/** One form for each member of a type, so that a member without one does not compile. */
export type FormsOf<T> = { readonly [K in keyof T]-?: Form };

/** An object with these members and no other. */
export function object<T>(forms: FormsOf<T>): Form {
  const known = new Map<string, Form>(Object.entries<Form>(forms));
  return (value) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
    const members = new Map<string, unknown>(Object.entries(value));
    for (const name of members.keys()) if (!known.has(name)) return false;
    for (const [name, form] of known) if (!form(members.get(name))) return false;
    return true;
  };
}

/** At most 1,000 unless said otherwise. */
export function list(form: Form, most = 1_000): Form {
  return (value) => Array.isArray(value) && value.length <= most && value.every((item) => form(item));
}

/** Text of so many UTF-16 code units, without half of a surrogate pair. */
export function text(least: number, most: number): Form {
  return (value) =>
    typeof value === 'string' && value.length >= least && value.length <= most && !/\p{Surrogate}/u.test(value);
}

export function number(least: number, most: number): Form {
  return (value) => typeof value === 'number' && value >= least && value <= most;
}

export function whole(least: number, most: number): Form {
  return (value) => Number.isSafeInteger(value) && number(least, most)(value);
}

export function oneOf(words: readonly unknown[]): Form {
  return (value) => words.includes(value);
}

export function either(...forms: readonly Form[]): Form {
  return (value) => forms.some((form) => form(value));
}

export const optional = (form: Form): Form => either(form, (value) => value === undefined);
export const orNull = (form: Form): Form => either(form, (value) => value === null);
/** A member of the type that stands in no file. */
export const absent: Form = (value) => value === undefined;
export const flag: Form = (value) => typeof value === 'boolean';

export const hex: Form = (value) => typeof value === 'string' && /^[0-9a-f]{64}$/.test(value);
export const id = text(1, 200);
export const line = text(0, 2_000);
export const count = whole(0, 1_000_000);
export const measure = number(-1e9, 1e9);
