/** What stands on the sheets of a loft: component labels, badges, command cards. */
import { COMMAND_NAMES } from '../../domain/command';
import type { Command } from '../../domain/command';
import { COMPONENT_KINDS } from '../../domain/component/component';
import type { Assembly, Component } from '../../domain/component/component';
import { STOP_CAUSES } from '../../domain/fact';
import { inspectionFindings } from '../../domain/component/inspection';
import type { Loft } from '../../domain/loft';
import { procedureFor } from '../../domain/loft';
import type { Person } from '../../domain/person';
import { allHoldsOf, type CountNoun } from '../../domain/procedure';
import type { HeldBadge } from '../../loft/parse-badges';
import { hasDemonstration, isDemonstration } from '../../packing/words/notices';
import { makeBadgePayload } from '../../scan/symbology/badge';
import { makeCardPayload } from '../../scan/symbology/card';
import { makeEnvelope } from '../../scan/symbology/envelope';
import { codeSvg } from './codes';
import { escaped, pagesOf, sheetHtml } from './sheet';
import type { SheetOf, SheetPage } from './sheet';

export interface Sheet {
  readonly file: string;
  readonly html: string;
}

const line = (kind: 'name' | 'fine' | 'serial', text: string): string => `<div class="${kind}">${escaped(text)}</div>`;

/** Labels are cut apart, so each says by itself that its assembly is only for demonstration. */
function belongsTo(loft: Loft, assembly: Assembly): string {
  const part = `part of ${assembly.name}`;
  return isDemonstration(procedureFor(loft, assembly)) ? `${part}. Demonstration only, not to be packed for use` : part;
}

/** Two symbols of one payload side by side: whichever is read, it is the same component. */
function componentItem(belongs: string, { kind, model }: Component, mark: string): string {
  return (
    line('name', `${kind}: ${model}`) +
    `<div class="codes">${codeSvg('code128', mark)}${codeSvg('dataMatrix', mark)}</div>` +
    line('serial', mark) +
    line('fine', belongs)
  );
}

/** A unique item identifier in an ISO/IEC 15434 envelope, as it is marked on the item itself: one matrix symbol. */
function uiiItem(belongs: string, { kind, model }: Component, uii: string): string {
  const payload = makeEnvelope([{ format: '06', fields: [`25S${uii}`] }]);
  return (
    line('name', `${kind}: ${model}, item identifier`) +
    `<div class="codes">${codeSvg('dataMatrix', payload)}</div>` +
    line('serial', uii) +
    line('fine', belongs)
  );
}

function sheetOf(loft: Loft): SheetOf {
  return { name: loft.settings.name, demonstration: hasDemonstration(loft) };
}

function componentSheet(loft: Loft): Sheet {
  const pages = loft.assemblies.flatMap((assembly) => {
    const belongs = belongsTo(loft, assembly);
    const items = assembly.components.flatMap((component) => [
      ...[component.serial, ...component.otherMarks].map((mark) => componentItem(belongs, component, mark)),
      ...(typeof component.uii === 'string' ? [uiiItem(belongs, component, component.uii)] : []),
    ]);
    return pagesOf(items, 4).map((portion): SheetPage => ({
      title: `Component labels: ${assembly.name}`,
      how: 'Cut along the dashes. Both codes of a label say the same; either will do.',
      columns: 1,
      itemMm: 55,
      items: portion,
    }));
  });
  return { file: 'components.html', html: sheetHtml(sheetOf(loft), pages) };
}

function badgeItems(person: Person, badges: readonly HeldBadge[]): readonly string[] {
  const what = [person.roles.join(', '), person.models.join(', ')].filter((text) => text !== '').join(' for ');
  const own = badges.filter((one) => one.person === person.id);
  return own.map(
    ({ badge }) =>
      line('name', person.name) +
      line('fine', what) +
      codeSvg('qr', makeBadgePayload(badge)) +
      line('fine', `${person.certificate ?? 'no certificate'}, ${person.validFrom} to ${person.validTo}`),
  );
}

function badgeSheet(loft: Loft, badges: readonly HeldBadge[]): Sheet {
  const items = loft.people.flatMap((person) => badgeItems(person, badges));
  const pages = pagesOf(items, 8).map((portion): SheetPage => ({
    title: 'Badges',
    how: 'Cut along the dashes and hand out one by one. What a badge may do stands in the people file, not on it.',
    columns: 2,
    itemMm: 56,
    items: portion,
  }));
  return { file: 'badges.html', html: sheetHtml(sheetOf(loft), pages) };
}

/** Nouns that the loft's procedures count, each with the largest number that they count to. */
function countsOf(loft: Loft): ReadonlyMap<CountNoun, number> {
  const most = new Map<CountNoun, number>();
  const raise = (noun: CountNoun, count: number): void => {
    most.set(noun, Math.max(most.get(noun) ?? 0, count));
  };
  for (const procedure of loft.procedures) {
    for (const tool of procedure.tools) raise('tools', tool.count);
    for (const stage of procedure.stages) {
      if (stage.kind === 'count') raise(stage.noun, stage.expected);
      if (stage.kind === 'stow') raise('stows', stage.plan.stows);
    }
  }
  return most;
}

function upTo(last: number): readonly number[] {
  return Array.from({ length: last }, (_, index) => index + 1);
}

/**
 * Every command that a card can give. Measured values have none: a card with the right value on it would be easier
 * to scan than a measurement is to make. They are told by voice or on the touch pad.
 */
function cardCommands(loft: Loft): readonly Command[] {
  const plain = COMMAND_NAMES.flatMap((name): Command[] =>
    name === 'count' || name === 'measured' || name === 'finding' || name === 'goToStage' || name === 'reopenStage'
      ? []
      : [{ name }],
  );
  const counts = [...countsOf(loft)].flatMap(([noun, most]) =>
    // More than is planned, so that a surplus can be told; to full tens, so that the last one tells no number.
    upTo(Math.ceil((most + 1) / 10) * 10).map((count): Command => ({ name: 'count', count, noun })),
  );
  const findings = Math.max(
    STOP_CAUSES.length,
    // "Other" and "damage" stand behind a hold's findings, "other" behind its points.
    ...loft.procedures.flatMap((procedure) =>
      allHoldsOf(procedure).map(({ hold }) => Math.max(hold.findings.length + 2, hold.inspect.length + 1)),
    ),
    ...loft.procedures.flatMap((one) => COMPONENT_KINDS.map((kind) => inspectionFindings(one, kind).length)),
  );
  const stages = Math.max(0, ...loft.procedures.map((procedure) => procedure.stages.length));
  return [
    ...plain,
    ...upTo(findings).map((number): Command => ({ name: 'finding', number })),
    // One more than there are: behind the last stage stands the signature.
    ...upTo(stages + 1).map((stage): Command => ({ name: 'goToStage', stage })),
    ...upTo(stages).map((stage): Command => ({ name: 'reopenStage', stage })),
    ...counts,
  ];
}

function cardSheet(loft: Loft, phraseFor: (command: Command) => string): Sheet {
  const items = cardCommands(loft).map(
    (command) => codeSvg('qr', makeCardPayload(command)) + line('name', phraseFor(command)),
  );
  const pages = pagesOf(items, 12).map((portion, index): SheetPage => ({
    title: `Command card ${index + 1}`,
    how: 'Scan a code instead of saying its words. Hold it so that it lies in the middle of the picture.',
    columns: 3,
    itemMm: 58,
    items: portion,
  }));
  return { file: 'command-card.html', html: sheetHtml(sheetOf(loft), pages) };
}

export interface ToPrint {
  readonly loft: Loft;
  /** The badges themselves; the loft knows only their digests. */
  readonly badges: readonly HeldBadge[];
}

/** All sheets of a loft. `phraseFor` gives the words that are said for a command. */
export function labelSheets({ loft, badges }: ToPrint, phraseFor: (command: Command) => string): readonly Sheet[] {
  return [componentSheet(loft), badgeSheet(loft, badges), cardSheet(loft, phraseFor)];
}
