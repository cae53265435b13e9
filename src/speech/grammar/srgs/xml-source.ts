/** An XML document with its places: parsed without DOM, without DTDs, and without entities but the five of XML itself. */
import { parseXml, XmlDeclaration, XmlDocumentType, XmlElement, XmlError, XmlText } from '@rgrove/parse-xml';
import type { XmlNode } from '@rgrove/parse-xml';
import { assert } from '../assert';
import { Cursor, GrammarFault } from './cursor';
import { CHARACTERS_MAX } from './limits';
import type { Place } from './srgs';

const NAMESPACE = 'http://www.w3.org/2001/06/grammar';

export class XmlSource {
  readonly root: XmlElement;
  /** As the XML declaration names it. */
  readonly encoding: string | null;
  private readonly cursor: Cursor;

  /** Throws GrammarFault where `text` is not well-formed, or wants anything expanded. */
  constructor(text: string) {
    // A byte order mark is no part of the document, and the parser would drop it and count from behind it.
    this.cursor = new Cursor(text.replace(/^\uFEFF/, ''));
    const nodes = this.parse();
    const declaration = nodes.find((node) => node instanceof XmlDeclaration);
    const type = nodes.find((node) => node instanceof XmlDocumentType);
    const root = nodes.find((node) => node instanceof XmlElement);
    // What is declared inside could expand without end, and what lies outside is never fetched.
    if (type !== undefined && typeof type.internalSubset === 'string') {
      throw this.fault(type, 'A document type must not declare anything itself; remove what stands in "[ ]".');
    }
    assert(root !== undefined, 'a well-formed document has an element');
    this.encoding = declaration?.encoding ?? null;
    this.root = root;
  }

  private parse(): readonly XmlNode[] {
    const { text } = this.cursor;
    if (text.length > CHARACTERS_MAX) {
      throw this.cursor.fault(`A grammar may have ${CHARACTERS_MAX} characters at most.`);
    }
    try {
      return parseXml(text, { includeOffsets: true, preserveDocumentType: true, preserveXmlDeclaration: true })
        .children;
    } catch (fault) {
      if (fault instanceof XmlError) {
        const [what = ''] = fault.message.split(' (line ');
        throw this.cursor.fault(`This is not well-formed XML: ${what}.`, fault.pos);
      }
      // The parser calls itself for each element within an element, until the host is out of stack.
      if (fault instanceof RangeError) throw this.cursor.fault('Elements are nested too deeply.', 0);
      throw fault;
    }
  }

  place(node: XmlNode): Place {
    return this.cursor.place(Math.max(0, node.start));
  }

  fault(node: XmlNode, message: string): GrammarFault {
    return new GrammarFault(message, this.place(node));
  }

  /**
   * Attributes of an element of SRGS. Those with a prefix are another vocabulary's, save `xml:`; one without that the
   * element does not know is a slip. All values but free text are tokens or addresses, which XML trims.
   */
  attributes(element: XmlElement, known: readonly string[]): ReadonlyMap<string, string> {
    const found = new Map<string, string>();
    for (const [name, value] of Object.entries(element.attributes)) {
      if (known.includes(name)) found.set(name, name === 'content' ? value : value.trim());
      else if (name !== 'xmlns' && !name.includes(':')) {
        throw this.fault(element, `<${element.name}> has no attribute "${name}".`);
      }
    }
    return found;
  }

  /** The text of an element that holds nothing else. */
  textOf(element: XmlElement): string {
    if (element.children.some((child) => child instanceof XmlElement)) {
      throw this.fault(element, `<${element.name}> holds text and no elements.`);
    }
    return element.text;
  }

  /** Elements of SRGS and texts, in order; what belongs to another vocabulary is left out (SRGS 5.1). */
  contentOf(element: XmlElement): readonly (XmlElement | XmlText)[] {
    return element.children.filter(
      (child): child is XmlElement | XmlText =>
        child instanceof XmlText || (child instanceof XmlElement && nameOf(child) !== null),
    );
  }
}

/** The local name of an element of SRGS; null for those of other namespaces. */
export function nameOf(element: XmlElement): string | null {
  const [prefix, local] = element.name.includes(':') ? element.name.split(':', 2) : ['', element.name];
  const attribute = prefix === '' ? 'xmlns' : `xmlns:${prefix}`;
  for (let scope: XmlNode | null = element; scope instanceof XmlElement; scope = scope.parent) {
    const namespace: string | undefined = scope.attributes[attribute];
    if (namespace !== undefined) return namespace === NAMESPACE ? (local ?? null) : null;
  }
  return null;
}
