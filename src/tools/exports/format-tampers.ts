/** Lies in how a file is written, signed with the right key: one small pack each, every hash and proof made to fit. */
import type { Fact, FactBody } from '../../domain/fact';
import { makeCardLine } from '../../record/chain/paper';
import { linesOf, remakeLines } from './remake-lines';
import type { Sound, Tamper } from './tamper';

/** The pack that was stopped at its check-in, which is the smallest, or the smallest that was signed. */
type Which = 'stopped' | 'signed';

function packOf({ file }: Sound, which: Which): readonly Fact[] {
  const facts = file.facts.map(({ fact }) => fact);
  const end = facts.find(({ body }) => body.kind === which);
  return facts.filter(({ pack }) => pack === end?.pack);
}

/** Changes the text of the first fact line of this kind. */
function byText(kind: FactBody['kind'], change: (line: string) => string): Tamper['make'] {
  return (sound) => {
    const facts = packOf(sound, 'stopped');
    const at = facts.findIndex(({ body }) => body.kind === kind);
    const lines = linesOf(facts);
    const before = lines[at] ?? '';
    const after = change(before);
    if (after === before) throw new Error(`nothing was changed in ${kind}`);
    return remakeLines(lines.with(at, after), sound.signer);
  };
}

/** What is changed in the first fact of a kind. */
interface InLine extends Pick<Tamper, 'name' | 'done'> {
  readonly kind: FactBody['kind'];
}

const spelling = ({ name, done, kind }: InLine, change: (line: string) => string): Tamper => ({
  ...{ name, done, finds: 'spelling' as const },
  make: byText(kind, change),
});
const form = ({ name, done, kind }: InLine, change: (line: string) => string): Tamper => ({
  ...{ name, done, finds: 'form' as const },
  make: byText(kind, change),
});

const SPELT: readonly Tamper[] = [
  spelling(
    {
      name: 'doubled-key',
      done: 'A reason stands twice in the fact of a stop: two readers see two reasons.',
      kind: 'stopped',
    },
    (line) => line.replace('"reason":', '"reason":"Nothing was wrong.","reason":'),
  ),
  spelling({ name: 'white-space', done: 'A space was put into a fact.', kind: 'stopped' }, (line) =>
    line.replace('"reason":', '"reason": '),
  ),
  spelling(
    { name: 'other-number', done: 'A number is written in another way that means the same.', kind: 'stopped' },
    (line) => line.replace('"v":1}', '"v":1.0}'),
  ),
  spelling({ name: 'other-order', done: 'Two members of a fact changed places.', kind: 'stopped' }, (line) =>
    line.replace(/"kind":"stopped","reason":("[^"]*")/, '"reason":$1,"kind":"stopped"'),
  ),
  spelling({ name: 'escaped', done: 'A letter is written as its number.', kind: 'stopped' }, (line) =>
    line.replace('"kind":"stopped"', '"kind":"\\u0073topped"'),
  ),
];

const FORMS: readonly Tamper[] = [
  form({ name: 'unknown-field', done: 'A member that no fact has was put into a fact.', kind: 'stopped' }, (line) =>
    line.replace('"kind":"stopped",', '"kind":"stopped","note":"all well",'),
  ),
  form(
    { name: 'unknown-outside', done: 'A member that no fact has was put beside the body.', kind: 'stopped' },
    (line) => line.replace('"v":1}', '"v":1,"w":1}'),
  ),
  form(
    { name: 'unknown-in-person', done: 'Somebody was given a member that no person has.', kind: 'peopleInForce' },
    (line) => line.replace('"revoked":false,', '"revoked":false,"rank":9,'),
  ),
  form({ name: 'unknown-kind', done: 'A fact is of a kind that there is not.', kind: 'stopped' }, (line) =>
    line.replace('"kind":"stopped"', '"kind":"stopper"'),
  ),
  form(
    { name: 'too-long', done: 'The reason of a stop is longer than any that a kiosk writes.', kind: 'stopped' },
    (line) => line.replace(/"reason":"[^"]*"/, `"reason":"${'so '.repeat(700)}"`),
  ),
  form({ name: 'half-a-letter', done: 'Half of a letter stands in a text.', kind: 'stopped' }, (line) =>
    line.replace(/"reason":"[^"]*"/, '"reason":"\\ud83d"'),
  ),
  form(
    { name: 'other-version', done: 'A fact says that it is of another version of the format.', kind: 'stopped' },
    (line) => line.replace('"v":1}', '"v":0}'),
  ),
  form(
    { name: 'no-such-day', done: 'A qualification ends on a day that there is not.', kind: 'peopleInForce' },
    (line) => line.replace(/"validTo":"\d{4}-\d{2}-\d{2}"/, '"validTo":"2036-02-30"'),
  ),
  form({ name: 'text-for-number', done: 'A member is a text where a number belongs.', kind: 'packOpened' }, (line) =>
    line.replace(/"edition":(\d)/, '"edition":"$1"'),
  ),
];

/** Changes the body of the first fact of this kind. */
function byBody<K extends FactBody['kind']>(
  kind: K,
  change: (body: Extract<FactBody, { kind: K }>) => object,
  which: Which = 'stopped',
): Tamper['make'] {
  return (sound) => {
    const facts = packOf(sound, which);
    const at = facts.findIndex(({ body }) => body.kind === kind);
    const fact = facts[at];
    if (fact === undefined) throw new Error(`the pack has no ${kind}`);
    const body = change(fact.body as Extract<FactBody, { kind: K }>) as FactBody;
    return remakeLines(linesOf(facts.with(at, { ...fact, body })), sound.signer);
  };
}

const without = (value: object, name: string): object =>
  Object.fromEntries(Object.entries(value).filter(([key]) => key !== name));

const EDITIONS: readonly Tamper[] = [
  {
    name: 'raw-badge',
    done: 'The badge itself stands in the fact that opened the pack.',
    finds: 'edition',
    make: byBody('packOpened', (body) => ({ ...body, badge: 'C93690VRQDN7TY64' })),
  },
  {
    name: 'no-badge',
    done: 'Nothing says with which badge the pack was opened.',
    finds: 'edition',
    make: byBody('packOpened', (body) => without(body, 'badgeDigest')),
  },
  {
    name: 'raw-scan',
    done: 'What was scanned stands in a fact, and not its digest.',
    finds: 'edition',
    make: byBody('componentIdentified', (body) => ({ ...without(body, 'payloadDigest'), payload: body.serial })),
  },
  {
    name: 'no-name-digest',
    done: 'The name digests were taken out of the people file, so that any name would do on the record.',
    finds: 'edition',
    make: byBody('peopleInForce', (body) => ({
      ...body,
      people: body.people.map((one) => without(one, 'nameDigest')),
    })),
  },
  {
    name: 'newer-edition',
    done: 'A pack says that it was recorded under rules that there are not yet.',
    finds: 'edition',
    make: byBody('packOpened', (body) => ({ ...body, edition: 99 })),
  },
  {
    name: 'older-edition',
    done: 'A later pack claims the older rules, so that less is demanded of it.',
    finds: 'edition',
    make: (sound) => {
      const first = packOf(sound, 'stopped');
      const [opened] = first;
      if (opened === undefined) throw new Error('the pack was opened');
      const second = first.map((fact, at) => ({
        ...fact,
        pack: 'pack-9001',
        body: at === 0 ? (without(fact.body, 'edition') as FactBody) : fact.body,
      }));
      return remakeLines(linesOf([...first, ...second]), sound.signer);
    },
  },
];

/** A card under the checkpoint of the pack that was signed, changed or made of another fact. */
function byCard(below: (facts: readonly Fact[], seq: number, line: string) => string): Tamper['make'] {
  return (sound) => {
    const facts = packOf(sound, 'signed');
    const seq = facts.findIndex(({ body }) => body.kind === 'signed');
    const body = facts[seq]?.body;
    if (body?.kind !== 'signed') throw new Error('the pack was signed');
    const line = below(facts, seq, makeCardLine(seq, body.record));
    return remakeLines(linesOf(facts), sound.signer, [line]);
  };
}

const CARDS: readonly Tamper[] = [
  {
    name: 'card-other-due',
    done: 'The card of the record states a later due date than the record.',
    finds: 'card',
    make: byCard((_facts, _seq, line) => line.replace(/last \d{4}/, 'last 2039')),
  },
  {
    name: 'card-other-fact',
    done: 'A card was made of a fact that is no signed record.',
    finds: 'card',
    make: byCard((_facts, _seq, line) => line.replace(/fact \d+/, 'fact 1')),
  },
  {
    name: 'unknown-line',
    done: 'A line stands below a signed checkpoint that the format does not know.',
    finds: 'checkpoint',
    make: byCard(() => 'approved by the head office'),
  },
];

const FILES: readonly Tamper[] = [
  {
    name: 'header-more',
    done: 'A member that no header has was put into the first line.',
    finds: 'header',
    make: async (sound) => {
      const text = await remakeLines(linesOf(packOf(sound, 'stopped')), sound.signer);
      return text.replace('"v":2}', '"v":2,"w":1}');
    },
  },
  {
    name: 'doubled-seal',
    done: 'A hash stands twice in a seal.',
    finds: 'seal',
    make: async (sound) => {
      const text = await remakeLines(linesOf(packOf(sound, 'stopped')), sound.signer);
      return text.replace(/\n\{"leaf":"([0-9a-f]{64})"/, '\n{"leaf":"$1","leaf":"$1"');
    },
  },
];

export const FORMAT_TAMPERS: readonly Tamper[] = [...SPELT, ...FORMS, ...EDITIONS, ...CARDS, ...FILES];
