/** What this kiosk's own journal knows of each component: when it was packed and signed here, and which tags hang on it. */
import type { FactSeq, PackId, PersonId, Serial } from '../ids';
import type { Assembly, Component, ComponentKind } from './component';
import type { Fact, FactBody, StopCause } from '../fact';
import { endsPack } from '../fact';
import type { Instant } from '../instant';
import { dateOf } from '../instant';
import type { Loft } from '../loft';
import type { PlainDate } from '../plain-date';
import { compareDates, sayDate } from '../plain-date';

/** A tag that nobody has taken off. */
export interface OpenTag {
  /** Number of the `stopped` fact that hung it. */
  readonly seq: FactSeq;
  readonly pack: PackId;
  readonly component: ComponentKind;
  readonly serial: Serial;
  /** Id of the assembly, where the pack had agreed on one. */
  readonly assembly: string | null;
  readonly cause: StopCause | null;
  readonly reason: string;
  readonly at: Instant;
  /** Person ids: who stopped, and everyone who had packed. */
  readonly by: PersonId | null;
  readonly packers: readonly PersonId[];
}

/** When one serial was first and last packed and signed here. */
export interface Packings {
  readonly first: PlainDate;
  readonly last: PlainDate;
}

export interface ComponentBook {
  readonly packings: ReadonlyMap<string, Packings>;
  readonly tags: readonly OpenTag[];
}

type StoppedBody = Extract<FactBody, { kind: 'stopped' }>;

interface Lying {
  identified: { readonly seq: FactSeq; readonly component: ComponentKind; readonly serial: Serial }[];
  packers: string[];
  /** Parts on which the inspection before packing found something. */
  found: ComponentKind[];
  assembly: string | null;
  signedOn: PlainDate | null;
}

/** Folds the journal fact by fact, over all packs. Keeps what lies in open packs, and forgets a pack once it has ended. */
export class BookFold {
  private readonly open = new Map<string, Lying>();
  private readonly packings = new Map<string, Packings>();
  private tags: readonly OpenTag[] = [];

  /** What is known after the facts so far. */
  book(): ComponentBook {
    return { packings: new Map(this.packings), tags: this.tags };
  }

  take(fact: Fact): void {
    const { body, pack, seq } = fact;
    const lying = this.open.get(pack) ?? { identified: [], packers: [], found: [], assembly: null, signedOn: null };
    switch (body.kind) {
      case 'packOpened':
        lying.packers.push(body.packer);
        break;
      case 'handedOver':
        lying.packers.push(body.to);
        break;
      case 'componentIdentified':
        lying.identified.push({ seq, component: body.component, serial: body.serial });
        break;
      case 'inspected':
        if (body.result === 'finding') lying.found.push(body.component);
        break;
      case 'assemblyAgreed':
        lying.assembly = body.assembly;
        break;
      case 'corrected':
        lying.identified = lying.identified.filter((one) => one.seq !== body.fact);
        break;
      case 'signed':
        lying.signedOn = body.record.packedOn;
        // A signature that awaits the final inspection can still be returned, or the pack be stopped.
        if (endsPack(body)) return this.closed(pack, lying);
        break;
      case 'packClosed':
        return this.closed(pack, lying);
      case 'stopped':
        this.tags = [...this.tags, ...tagsOf(fact, body, lying)];
        this.open.delete(pack);
        return;
      case 'tagCleared':
        this.tags = this.tags.filter((tag) => tag.seq !== body.tag || tag.serial !== body.serial);
        return;
      default:
        return;
    }
    this.open.set(pack, lying);
  }

  private closed(pack: string, { identified, signedOn }: Lying): void {
    if (signedOn !== null) for (const { serial } of identified) this.packed(serial, signedOn);
    this.open.delete(pack);
  }

  private packed(serial: string, on: PlainDate): void {
    const known = this.packings.get(serial);
    const first = known !== undefined && compareDates(known.first, on) < 0 ? known.first : on;
    const last = known !== undefined && compareDates(known.last, on) > 0 ? known.last : on;
    this.packings.set(serial, { first, last });
  }
}

/**
 * On the component that the stop names, and on each on which the inspection before packing found something; on every
 * identified one where the stop names none, or one that was not identified.
 */
function tagsOf({ seq, pack, at, by }: Fact, stopped: StoppedBody, lying: Lying): readonly OpenTag[] {
  const { assembly, packers, found, identified } = lying;
  const isNamed = identified.some(({ component }) => component === stopped.component);
  const tagged = identified.filter(
    ({ component }) => !isNamed || component === stopped.component || found.includes(component),
  );
  const { reason, cause = null } = stopped;
  return tagged.map(({ component, serial }) => {
    return { seq, pack, component, serial, assembly, cause, reason, at, by, packers };
  });
}

/** Why a pack was stopped, in words: "wrong part"; null where its fact is too old to say. */
export function sayCause(cause: StopCause | null): string | null {
  return cause === null ? null : cause.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

/** "tagged on 25 November 2026 for damage". */
function sayTag({ at, cause }: OpenTag): string {
  const why = sayCause(cause);
  return `tagged on ${sayDate(dateOf(at))}${why === null ? '' : ` for ${why}`}`;
}

function earlier(a: PlainDate, b: PlainDate | undefined): PlainDate {
  return b !== undefined && compareDates(b, a) < 0 ? b : a;
}

function withBookOf(component: Component, { packings, tags }: ComponentBook): Component {
  const { serial, lastPackedOn, inServiceOn } = component;
  const here = packings.get(serial);
  const open = tags.filter((tag) => tag.serial === serial).map(sayTag);
  const last = here === undefined || (lastPackedOn !== null && compareDates(lastPackedOn, here.last) > 0);
  return {
    ...component,
    lastPackedOn: last ? lastPackedOn : here.last,
    // Not later than the first packing for use: where file and journal differ, the life that ends sooner counts.
    inServiceOn: inServiceOn === null ? null : earlier(inServiceOn, here?.first),
    ...(open.length === 0 ? {} : { tags: open }),
  };
}

/** The loft with what the journal adds to its files: the file is the starting state, and the later packing counts. */
export function withBook(loft: Loft, book: ComponentBook): Loft {
  const fed = (assembly: Assembly): Assembly => ({
    ...assembly,
    components: assembly.components.map((component) => withBookOf(component, book)),
  });
  return { ...loft, assemblies: loft.assemblies.map(fed) };
}
