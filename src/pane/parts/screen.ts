import type { TemplateResult } from "lit";

export const sections = ["Instruments", "Functions", "Cell", "Workbook", "About"] as const;
export type Section = (typeof sections)[number];

/** What the pane shows at a time. Screens lie on each other like cards; going back takes the uppermost away. */
export interface Screen {
  /** Its heading. */
  readonly title: string;
  readonly view: () => TemplateResult;
  /** Called when its section comes to the front. */
  readonly shown?: () => void;
  /** Something was typed and not saved: going back asks first. */
  readonly unsaved?: () => boolean;
}
