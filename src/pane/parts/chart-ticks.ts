import { svg, type SVGTemplateResult } from "lit";

/** A tick below the picture with its text. */
export const tickBelow = (x: number, bottom: number, text: string): SVGTemplateResult =>
  svg`<text x=${x} y=${bottom + 16} text-anchor="middle">${text}</text>
    <path class="chart-frame" d="M${x} ${bottom}v4"></path>`;

/** A tick at the left side with its text. */
export const tickBefore = (left: number, y: number, text: string): SVGTemplateResult =>
  svg`<text x=${left - 6} y=${y + 4} text-anchor="end">${text}</text>
    <path class="chart-frame" d="M${left} ${y}h-4"></path>`;
