import { SaxesParser } from 'saxes';

/** An element of a parsed document. */
export interface Node {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Node[];
  /** Of the element itself, without that of its children. */
  text: string;
}

/** Parses XML with an independent, strict parser. Throws where it is not well formed. */
export function parseXml(text: string): Node {
  const parser = new SaxesParser();
  const root: Node = { name: '', attributes: {}, children: [], text: '' };
  const open = [root];
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const node: Node = { name, attributes: attributes as Record<string, string>, children: [], text: '' };
    open.at(-1)!.children.push(node);
    open.push(node);
  });
  parser.on('text', (part) => {
    open.at(-1)!.text += part;
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.write(text).close();
  return root.children[0]!;
}

/** The element and all below it. */
export const all = (node: Node): Node[] => [node, ...node.children.flatMap(all)];
