/**
 * What Web IDL demands of attributes and arguments, for interfaces written as classes: an attribute is read through
 * the prototype, turns what it is given into its own type, and answers for no object of another interface.
 */

interface Interface {
  readonly prototype: object;
}

/** One attribute that may be set: what it is to begin with, and what it makes of a value. */
export interface Attribute {
  readonly first: () => unknown;
  readonly take: (value: unknown) => unknown;
}

/** An attribute whose first value is the same for every object. */
export function attribute(first: unknown, take: (value: unknown) => unknown): Attribute {
  return { first: () => first, take };
}

/** Gives the interface these attributes; its class only declares them. */
export function defineAttributes(made: Interface, attributes: Readonly<Record<string, Attribute>>): void {
  for (const [name, { first, take }] of Object.entries(attributes)) {
    const values = new WeakMap<object, unknown>();
    define(made, name, {
      get: (one) => {
        if (!values.has(one)) values.set(one, first());
        return values.get(one);
      },
      set: (one, value) => void values.set(one, take(value)),
    });
  }
}

/**
 * Gives the interface an event handler attribute (HTML, 8.1.8.1) for each of these events: `on` and the event's name.
 * A handler is called in its turn among the listeners, which begins when one is first set.
 */
export function defineHandlers(made: Interface, events: readonly string[]): void {
  for (const event of events) {
    const handlers = new WeakMap<object, unknown>();
    define(made, `on${event}`, {
      get: (one) => handlers.get(one) ?? null,
      set: (one, value) => {
        const isHandler = typeof value === 'function';
        if (isHandler && !handlers.has(one) && one instanceof EventTarget) {
          one.addEventListener(event, (told) => {
            const handler = handlers.get(one);
            if (typeof handler === 'function') handler.call(one, told);
          });
        }
        if (isHandler || handlers.has(one)) handlers.set(one, isHandler ? value : null);
      },
    });
  }
}

interface Accessors {
  readonly get: (one: object) => unknown;
  readonly set: (one: object, value: unknown) => void;
}

function define({ prototype }: Interface, name: string, { get, set }: Accessors): void {
  const checked = (one: unknown): object => {
    if (typeof one === 'object' && one !== null && Object.prototype.isPrototypeOf.call(prototype, one)) return one;
    throw new TypeError(`"${name}" belongs to another interface than this object.`);
  };
  Object.defineProperty(prototype, name, {
    configurable: true,
    enumerable: true,
    get(this: unknown) {
      return get(checked(this));
    },
    set(this: unknown, value: unknown) {
      set(checked(this), value);
    },
  });
}

/** `float`: what is no finite number is a TypeError. */
export function float(value: unknown): number {
  const number = Number(value);
  if (!Number.isFinite(number)) throw new TypeError(`${String(value)} is not a finite number`);
  return number;
}

/** `unsigned long` as an argument that must be there. */
export function unsignedLong(value: unknown): number {
  return Number(required(value, 'A number')) >>> 0;
}

/** An argument, or a member of a dictionary, that must be there. */
export function required<T>(value: T, what: string): Exclude<T, undefined> {
  if (value === undefined) throw new TypeError(`${what} is missing.`);
  return value as Exclude<T, undefined>;
}

/** One of an enumeration's values; any other is a TypeError. */
export function enumerated<T extends string>(values: readonly T[], value: unknown): T {
  const found = values.find((one) => one === String(value));
  if (found === undefined) throw new TypeError(`"${String(value)}" is none of ${values.join(', ')}.`);
  return found;
}
