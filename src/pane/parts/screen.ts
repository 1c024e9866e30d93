import type { TemplateResult } from "lit";

export const sections = ["Instruments", "Functions", "Cell", "Workbook", "About"] as const;
export type Section = (typeof sections)[number];

/** A screen of the pane. Screens form a stack; going back removes the topmost. */
export interface Screen {
  /** Its heading. */
  readonly title: string;
  readonly view: () => TemplateResult;
  /** Called when its section comes to the front. */
  readonly shown?: () => void;
  /** Whether anything typed is not saved; going back then asks first. */
  readonly unsaved?: () => boolean;
}
