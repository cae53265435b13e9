/** Whoever wants to be told of something: added, told in the order of adding, and forgotten. */
export class Listeners<Told extends readonly unknown[]> {
  readonly #listeners = new Set<(...told: Told) => void>();

  /** Tells this one from now on; what is returned ends that. */
  add(listener: (...told: Told) => void): () => void {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  }

  tell(...told: Told): void {
    for (const listener of this.#listeners) listener(...told);
  }
}
