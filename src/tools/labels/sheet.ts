/** A printable sheet as one HTML file that needs nothing beside it. */

/** On every page of the sheets of a loft that has a procedure only for demonstration. */
export const DEMO_NOTICE =
  'Invented for demonstration only. Loft, people, models, serials and numbers do not exist. ' +
  'Must not be used to pack a parachute.';

/** Text as HTML. */
export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}

const STYLE = `
@page { size: A4; margin: 10mm; }
* { box-sizing: border-box; }
body { margin: 0; color: #000; background: #fff; font: 11pt/1.3 'DejaVu Sans', 'Liberation Sans', Arial, sans-serif; }
.page { width: 190mm; min-height: 270mm; margin: 0 auto 8mm; display: flex; flex-direction: column; break-after: page; }
.page:last-child { break-after: auto; margin-bottom: 0; }
h1 { font-size: 15pt; margin: 0 0 1mm; }
h1 small { font-weight: normal; font-size: 11pt; }
.notice { margin: 0 0 4mm; padding: 1.5mm 2mm; border: 0.5mm solid #000; font-weight: bold; font-size: 10pt; }
.how { margin: 0 0 4mm; }
.grid { display: grid; gap: 0; flex: 1; align-content: start; }
.item { border: 0.2mm dashed #888; padding: 3mm; text-align: center; break-inside: avoid; display: flex;
  flex-direction: column; align-items: center; justify-content: center; gap: 1.5mm; }
.codes { display: flex; align-items: center; justify-content: center; gap: 12mm; width: 100%; }
.name { font-weight: bold; font-size: 12pt; }
.fine { font-size: 9pt; }
.serial { font: bold 13pt 'DejaVu Sans Mono', 'Liberation Mono', monospace; letter-spacing: 0.5mm; }
`;

export interface SheetPage {
  readonly title: string;
  /** What to do with it, in a sentence. */
  readonly how: string;
  readonly columns: number;
  /** Least height of an item, in millimetres: keeps codes apart that are scanned one by one. */
  readonly itemMm: number;
  /** Ready HTML, one for each item. */
  readonly items: readonly string[];
}

/** Whose sheet it is. */
export interface SheetOf {
  readonly name: string;
  /** Whether the page says that all of it is invented. */
  readonly demonstration: boolean;
}

function pageHtml({ name, demonstration }: SheetOf, page: SheetPage): string {
  const items = page.items.map((item) => `<div class="item" style="min-height:${page.itemMm}mm">${item}</div>`);
  return [
    '<section class="page">',
    `<h1>${escaped(page.title)} <small>${escaped(name)}</small></h1>`,
    ...(demonstration ? [`<p class="notice">${DEMO_NOTICE}</p>`] : []),
    `<p class="how">${escaped(page.how)}</p>`,
    `<div class="grid" style="grid-template-columns:repeat(${page.columns},1fr)">`,
    ...items,
    '</div>',
    '</section>',
  ].join('\n');
}

/** The whole file. */
export function sheetHtml(loft: SheetOf, pages: readonly SheetPage[]): string {
  const title = escaped(`${pages[0]?.title ?? 'Sheet'}, ${loft.name}`);
  return [
    '<!doctype html>',
    '<html lang="en">',
    `<head><meta charset="utf-8"><title>${title}</title><style>${STYLE}</style></head>`,
    '<body>',
    ...pages.map((page) => pageHtml(loft, page)),
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

/** Items in portions of one page each. */
export function pagesOf<T>(items: readonly T[], perPage: number): readonly (readonly T[])[] {
  return Array.from({ length: Math.ceil(items.length / perPage) }, (_, page) =>
    items.slice(page * perPage, (page + 1) * perPage),
  );
}
