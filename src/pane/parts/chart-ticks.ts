import { svg, type SVGTemplateResult } from "lit";

/** A tick on the x-axis with its label. */
export const tickBelow = (x: number, bottom: number, text: string): SVGTemplateResult =>
  svg`<text x=${x} y=${bottom + 16} text-anchor="middle">${text}</text>
    <path class="chart-frame" d="M${x} ${bottom}v4"></path>`;

/** A tick on the y-axis with its label. */
export const tickBefore = (left: number, y: number, text: string): SVGTemplateResult =>
  svg`<text x=${left - 6} y=${y + 4} text-anchor="end">${text}</text>
    <path class="chart-frame" d="M${left} ${y}h-4"></path>`;
