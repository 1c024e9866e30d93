/** An attribute, with offsets of all of it and of the text between its quotes. */
export interface XmlAttribute {
  readonly name: string;
  readonly value: string;
  readonly start: number;
  readonly end: number;
  readonly valueStart: number;
  readonly valueEnd: number;
}

/** An opening tag, valid only during the call that hands it over. */
export interface OpenTag {
  readonly name: string;
  /** Offset of "<". */
  readonly start: number;
  /** Offset behind ">". */
  readonly end: number;
  readonly selfClosing: boolean;
  readonly attributes: readonly XmlAttribute[];
  value(name: string): string | undefined;
}

/** Receives a part in document order. A self-closing element opens and closes, with an empty closing tag at its end. */
export interface XmlHandler {
  open(tag: OpenTag): void;
  close(name: string, start: number, end: number): void;
  /** Decoded text; one run of text may arrive in pieces. */
  text?(data: string): void;
}
