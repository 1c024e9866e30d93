/** An attribute, with the offsets of all of it and of the text between its quotes. */
export interface XmlAttribute {
  readonly name: string;
  readonly value: string;
  readonly start: number;
  readonly end: number;
  readonly valueStart: number;
  readonly valueEnd: number;
}

/** An opening tag, valid only during the call that passes it. */
export interface OpenTag {
  readonly name: string;
  /** Offset of "<". */
  readonly start: number;
  /** Offset after ">". */
  readonly end: number;
  readonly selfClosing: boolean;
  readonly attributes: readonly XmlAttribute[];
  value(name: string): string | undefined;
}

/**
 * Receives the events of a part in document order. A self-closing element opens and closes, with an empty closing tag
 * at its end.
 */
export interface XmlHandler {
  open(tag: OpenTag): void;
  close(name: string, start: number, end: number): void;
  /** Decoded text; one text may arrive in several pieces. */
  text?(data: string): void;
}
