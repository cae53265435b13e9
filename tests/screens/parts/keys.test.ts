/** Every command has a key of its own, and none that a scanner or a browser needs. */
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { COMMAND_KEYS, commandForKey, keyLabel, keyShortcut } from '../../../src/screens/parts/keys';

describe('keys', () => {
  it('gives every command a key, and no two the same', () => {
    const labels = COMMAND_NAMES.map(keyLabel);
    expect(labels).toHaveLength(COMMAND_NAMES.length);
    expect(new Set(labels).size).toBe(labels.length);
  });

  it.each(COMMAND_NAMES)('finds the command of its key again: %s', (name) => {
    const { key, shift } = COMMAND_KEYS[name];
    expect(commandForKey(key, shift)).toBe(name);
    expect(commandForKey(key, !shift)).not.toBe(name);
    expect(keyShortcut(name)).toBe(shift ? `Shift+${key}` : key);
  });

  it('uses only function keys and those of the block beside them, which a scanner does not send for a label', () => {
    expect(COMMAND_NAMES.filter((name) => !/^(F([1-9]|1[0-2])|Insert|Home|End)$/.test(COMMAND_KEYS[name].key))).toEqual(
      [],
    );
  });

  it('leaves the key of the browser menu alone', () => {
    expect(commandForKey('F10', true)).toBeNull();
  });

  it('needs two fingers for what cannot easily be taken back', () => {
    for (const name of ['releaseHold', 'returnHold', 'stopAndTag', 'finish'] as const) {
      expect(COMMAND_KEYS[name].shift).toBe(true);
    }
  });

  it.each(['a', '1', 'Enter', ' ', 'Tab', 'Escape'])('gives no command for %j', (key) => {
    expect(commandForKey(key, false)).toBeNull();
    expect(commandForKey(key, true)).toBeNull();
  });
});
