/** Names of copies: whose journal it is, by table and key, and how much of it. */

export interface CopyOf {
  readonly table: string;
  /** Text of the kiosk's key; null where it cannot sign. */
  readonly key: string | null;
  /** Facts in it. */
  readonly size: number;
}

const FORM = /^stowcall-([a-z0-9-]{1,60})-([0-9a-f]{8}|unsigned)-(0|[1-9]\d{0,15})\.jsonl$/;

function stemOf({ table, key }: Omit<CopyOf, 'size'>): string {
  const plain = table
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return `stowcall-${plain === '' ? 'table' : plain}-${key?.split('+')[1] ?? 'unsigned'}`;
}

export function copyName(copy: CopyOf): string {
  return `${stemOf(copy)}-${String(copy.size)}.jsonl`;
}

/** Facts in the copy of that name; null for a file that is no copy. */
export function sizeOfCopy(name: string): number | null {
  const size = FORM.exec(name)?.[3];
  return size === undefined ? null : Number(size);
}

/** Whether the file is a copy of the same journal. */
export function isSameJournal(name: string, of: Omit<CopyOf, 'size'>): boolean {
  return sizeOfCopy(name) !== null && name.slice(0, name.lastIndexOf('-')) === stemOf(of);
}
