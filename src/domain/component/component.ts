/** The parts of an assembly and what the loft knows of each. */
import type { Serial } from '../ids';
import type { CheckLine } from '../check-line';
import type { PlainDate } from '../plain-date';
import { addYears, compareDates, sayDate } from '../plain-date';
import type { RepackRule } from './repack-rule';
import { firstOverdueDay, isInDate, lastGoodDay } from './repack-rule';

export const COMPONENT_KINDS = ['bag', 'container', 'canopy'] as const;
export type ComponentKind = (typeof COMPONENT_KINDS)[number];

export interface Component {
  readonly kind: ComponentKind;
  /** The loft's model name; a procedure says which models it fits. */
  readonly model: string;
  readonly serial: Serial;
  /** Further payloads that name the same item (an old linear label beside a newer mark). */
  readonly otherMarks: readonly string[];
  /** Unique item identifier of its mark, as the loft's books have it; null or absent where there is none. */
  readonly uii?: string | null | undefined;
  readonly madeOn: PlainDate;
  readonly inServiceOn: PlainDate | null;
  /** Service life in whole years from manufacture; null where none is set (the rigger judges). */
  readonly lifeYearsFromMade: number | null;
  /** Service life in whole years from placing in service; null where none is set. */
  readonly lifeYearsFromService: number | null;
  /** Last time this component was packed; null when it never was. */
  readonly lastPackedOn: PlainDate | null;
  /** Last technical inspection. What was found up to that day is looked at; it is no packing and puts nothing in date. */
  readonly lastInspectedOn: PlainDate | null;
  /** Uses before this packing, as the books have them; null or absent where they do not say. */
  readonly uses?: number | null | undefined;
  /** Open defects and outstanding work, in words; any entry stops check-in. */
  readonly outstanding: readonly string[];
  /** Tags that this kiosk's journal knows and nobody has taken off; from no file. Any entry stops check-in. */
  readonly tags?: readonly string[] | undefined;
}

export interface Assembly {
  readonly id: string;
  readonly name: string;
  /** The assembly's model: riggers are qualified by it, procedures apply to it. */
  readonly model: string;
  /** Type and make as the log record states it (14 CFR 65.131(a)(1)). */
  readonly typeAndMake: string;
  readonly owner: { readonly name: string; readonly address: string };
  readonly components: readonly Component[];
  readonly procedure: string;
  /** Id of the repack rule in the loft file. */
  readonly repackRule: string;
  /** Set when this assembly is being packed at another table of the loft. */
  readonly openAt: string | null;
}

/** The component that carries this plain mark, as its serial or as one of its other marks; null when no assembly has it. */
export function componentOfSerial(
  assemblies: readonly Assembly[],
  serial: Serial,
): { readonly assembly: Assembly; readonly component: Component } | null {
  for (const assembly of assemblies) {
    const component = assembly.components.find((one) => one.serial === serial || one.otherMarks.includes(serial));
    if (component !== undefined) return { assembly, component };
  }
  return null;
}

type Verdict = Omit<CheckLine, 'label'>;

const pass = (detail: string): Verdict => ({ passed: true, detail });
const fail = (detail: string): Verdict => ({ passed: false, detail });

/** Dates that contradict each other or lie ahead mean that the record is wrong, so nothing computed from it counts. */
function checkRecord(component: Component, on: PlainDate): Verdict {
  const { madeOn, inServiceOn, lastPackedOn, lastInspectedOn } = component;
  const later = [
    { what: 'placed in service', date: inServiceOn },
    { what: 'last packed', date: lastPackedOn },
    { what: 'last inspected', date: lastInspectedOn },
  ];
  if (compareDates(madeOn, on) > 0)
    return fail(`Made on ${sayDate(madeOn)}, which is still to come. Correct the record.`);
  for (const { what, date } of later) {
    if (date === null) continue;
    const said = `${what} on ${sayDate(date)}`;
    if (compareDates(date, on) > 0) return fail(`Recorded as ${said}, which is still to come. Correct the record.`);
    if (compareDates(date, madeOn) < 0) {
      return fail(`Recorded as ${said}, before it was made on ${sayDate(madeOn)}. Correct the record.`);
    }
  }
  return pass(`Made on ${sayDate(madeOn)}.`);
}

/**
 * An overdue packing bars use and not the packing that mends it, so this line passes and says so. No inspection puts a
 * packing back in date: only packing and signing does.
 */
function checkRepack(component: Component, rule: RepackRule, on: PlainDate): Verdict {
  const { lastPackedOn, inServiceOn } = component;
  if (lastPackedOn === null) {
    if (inServiceOn === null || compareDates(inServiceOn, on) >= 0)
      return pass('Never packed, so no interval is running.');
    return fail(`In service since ${sayDate(inServiceOn)} and never packed, which cannot be. Correct the record.`);
  }
  const packed = `Packed on ${sayDate(lastPackedOn)}`;
  if (compareDates(lastPackedOn, on) > 0) return fail(`${packed}, which is still to come. Correct the record.`);
  if (isInDate(rule, lastPackedOn, on))
    return pass(`${packed}, last day of use ${sayDate(lastGoodDay(rule, lastPackedOn))}.`);
  const since = sayDate(firstOverdueDay(rule, lastPackedOn));
  return pass(`${packed}, overdue since ${since}: not for use until packed and signed.`);
}

/** The anniversary itself is already beyond life: where the trade does not say, the stricter reading stands. */
function checkLife(from: PlainDate | null, years: number | null, on: PlainDate): Verdict {
  if (years === null) return pass('No service life is set. The rigger judges.');
  if (from === null)
    return fail(`The date from which ${String(years)} years of life run is unknown. Complete the record.`);
  const end = addYears(from, years);
  const said = `${String(years)} years from ${sayDate(from)} end on ${sayDate(end)}`;
  if (compareDates(from, on) > 0) return fail(`Life would begin on ${sayDate(from)}, which is still to come.`);
  return compareDates(on, end) < 0 ? pass(`${said}.`) : fail(`${said}. Take it out of service.`);
}

function checkOutstanding(component: Component): Verdict {
  if (component.outstanding.length === 0) return pass('Nothing outstanding.');
  return fail(`Outstanding: ${component.outstanding.join('; ')}. Have it done and recorded first.`);
}

function checkTags({ tags = [] }: Component): Verdict {
  if (tags.length === 0) return pass('No open tag in the journal of this kiosk.');
  return fail(`Not for use: ${tags.join('; ')}. Somebody who may inspect it takes the tag off on the page Tags.`);
}

const KIND_LABELS: Readonly<Record<ComponentKind, string>> = { bag: 'Bag', container: 'Container', canopy: 'Canopy' };

/** Everything the dates and the book of one component say on the day `on`; one failed line stops check-in. */
export function checkComponent(component: Component, rule: RepackRule, on: PlainDate): readonly CheckLine[] {
  const label = KIND_LABELS[component.kind];
  return [
    { label: `${label}: record`, ...checkRecord(component, on) },
    { label: `${label}: repack date`, ...checkRepack(component, rule, on) },
    { label: `${label}: life from manufacture`, ...checkLife(component.madeOn, component.lifeYearsFromMade, on) },
    { label: `${label}: life in service`, ...checkLife(component.inServiceOn, component.lifeYearsFromService, on) },
    { label: `${label}: outstanding work`, ...checkOutstanding(component) },
    { label: `${label}: tags`, ...checkTags(component) },
  ];
}
