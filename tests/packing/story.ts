/** Reads and plays the lines of a story. The words of a line are split at spaces; text in quotes stays together. */
import { textDigest } from '../../src/record/chain/text-digest';
import { expect } from 'vitest';
import type { Channel, Command, CommandName } from '../../src/domain/command';
import { COMMAND_NAMES } from '../../src/domain/command';
import type { CountNoun } from '../../src/domain/procedure';
import type { Unit } from '../../src/domain/quantity';
import { taskKey } from '../../src/packing/state/task';
import { reach } from './autopilot';
import { LOFT } from './fixture';
import type { Storage } from './pack-driver';
import { PackDriver } from './pack-driver';

export interface Story {
  readonly story: string;
  readonly lines: string;
}

const split = (line: string): readonly string[] =>
  [...line.matchAll(/(?:[^\s"]|"[^"]*")+/g)].map(([word]) => word.replaceAll('"', ''));

function nameOf(text: string): CommandName {
  const name = COMMAND_NAMES.find((one) => one === text);
  if (name === undefined) throw new Error(`${text} is no command`);
  return name;
}

/** `count 5 stows`, `measured 37 in`, `finding 2`, `goToStage 4`, `reopenStage 4`, or a bare name. */
export function parseCommand(args: readonly string[]): Command {
  const name = nameOf(args[0] ?? '');
  const number = Number(args[1]);
  if (name === 'count') return { name, count: number, noun: args[2] as CountNoun };
  if (name === 'measured') return { name, value: number, unit: (args[2] as Unit | undefined) ?? null };
  if (name === 'finding') return args[2] === undefined ? { name, number } : { name, number, note: args[2] };
  if (name === 'goToStage' || name === 'reopenStage') return { name, stage: number };
  return { name };
}

function bodyMatches(body: Readonly<Record<string, unknown>>, wanted: readonly string[]): boolean {
  return wanted.every((one) => {
    const at = one.indexOf('=');
    const [key, value] = [one.slice(0, at), one.slice(at + 1)];
    // A story says what was scanned; the fact says its digest.
    return String(body[key]) === (key === 'payloadDigest' ? textDigest(value) : value);
  });
}

export class StoryTeller {
  private driver: PackDriver | null = null;
  private mark = 0;
  /** For a storage that fails from the beginning: `store fails` before `open`. */
  private storage: Storage = 'works';

  get isOpen(): boolean {
    return this.driver !== null;
  }

  get pack(): PackDriver {
    if (this.driver === null) throw new Error('a story begins with "open"');
    return this.driver;
  }

  play(line: string): void {
    const [verb = '', ...args] = split(line);
    if (verb === 'open') this.open(args);
    else if (verb === 'expect') this.expectation(args);
    else if (!this.say(verb, args) && !this.world(verb, args)) throw new Error(`no such line: ${line}`);
  }

  private open([packer = 'ada', ...elsewhere]: readonly string[]): void {
    this.driver = new PackDriver({ loft: LOFT, packer, openElsewhere: elsewhere, storage: this.storage });
  }

  private say(verb: string, args: readonly string[]): boolean {
    const channels: Readonly<Record<string, Channel>> = { hear: 'voice', touch: 'touch', key: 'key' };
    const channel = channels[verb];
    if (channel !== undefined) this.pack.command(parseCommand(args), channel);
    else if (verb === 'card')
      this.pack.scan({ kind: 'command', command: parseCommand(args) }, `card ${args.join(' ')}`);
    else if (verb === 'scan') this.pack.component(args[0] ?? '', args[1]);
    else if (verb === 'smudge')
      this.pack.scan({ kind: 'refused', reason: 'check', detail: 'The label is damaged.' }, '??');
    else if (verb === 'badge') this.pack.badge(`B-${args[0] ?? ''}`, Number(args[2] ?? 0));
    else if (verb === 'rescan') this.pack.rescan();
    else return false;
    return true;
  }

  private world(verb: string, args: readonly string[]): boolean {
    if (this.driver === null && verb === 'store' && args[0] === 'fails') {
      this.storage = { fails: 'The storage is full.' };
      return true;
    }
    const pack = this.pack;
    if (verb === 'reach') reach(pack, args[0] ?? '', { assembly: args[1] ?? 'P1' });
    else if (verb === 'after') pack.after(Number(args[0]));
    else if (verb === 'tick') pack.tick();
    else if (verb === 'restart') pack.restart();
    else if (verb === 'mark') this.mark = pack.facts.length;
    else if (verb === 'store' && args[0] === 'fails') pack.storage = { fails: args[1] ?? 'The storage is full.' };
    else if (verb === 'store' && args[0] === 'hangs') pack.storage = 'hangs';
    else if (verb === 'store' && args[0] === 'answers') pack.settle('works');
    else if (verb === 'store') pack.storage = 'works';
    else return false;
    return true;
  }

  /** Facts since the last `mark`, or since the beginning. */
  private factsLike(args: readonly string[]): number {
    const [kind, ...wanted] = args;
    return this.pack.facts.slice(this.mark).filter(({ body }) => body.kind === kind && bodyMatches({ ...body }, wanted))
      .length;
  }

  private expectation(args: readonly string[]): void {
    const [what = '', ...rest] = args;
    const { view, phase, task } = this.pack;
    const text = rest.at(-1) ?? '';
    if (what === 'screen') expect(view.detail.screen).toBe(text);
    else if (what === 'phase') expect(phase).toBe(text);
    else if (what === 'task') expect(taskKey(task)).toBe(text);
    else if (what === 'notice') expect(view.notice?.text ?? '').toContain(text);
    else if (what === 'say') expect(view.prompt.say).toContain(text);
    else if (what === 'show') expect(view.prompt.show).toContain(text);
    else if (what === 'readback') expect(view.readBack?.show ?? '').toContain(text);
    else if (what === 'scan') expect(view.scan).toBe(text === 'none' ? null : text);
    else if (what === 'legal') expect(view.legal.map(({ name }) => name).sort()).toEqual([...rest].sort());
    else if (what === 'can') expect(view.legal.map(({ name }) => name)).toContain(text);
    else if (what === 'storing') expect(view.storing).toBe(text !== 'no');
    else if (what === 'ended') expect(view.ended).toBe(true);
    else if (what === 'fact') expect(this.factsLike(rest), args.join(' ')).toBeGreaterThan(0);
    else if (what === 'facts') expect(this.factsLike(rest.slice(1)), args.join(' ')).toBe(Number(rest[0]));
    else if (what === 'no') this.expectNone(rest);
    else throw new Error(`no such expectation: ${what}`);
  }

  private expectNone([what = '', ...rest]: readonly string[]): void {
    const { view } = this.pack;
    if (what === 'fact') expect(this.factsLike(rest), rest.join(' ')).toBe(0);
    else if (what === 'notice') expect(view.notice).toBeNull();
    else if (what === 'readback') expect(view.readBack).toBeNull();
    else if (what === 'legal') expect(view.legal.map(({ name }) => name)).not.toContain(rest[0]);
    else throw new Error(`no such expectation: no ${what}`);
  }
}
