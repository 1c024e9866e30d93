// Entry of the desk's page. Slow parts are loaded later, so that there is something to read and choose at once.
import { DeskPage, type PageElements } from "./page/desk-page.js";
import { exampleNamed, examples } from "./page/examples.js";
import { keepOffline } from "./page/offline.js";
import { regionKeys } from "./univer/regions.js";
import type { Workbench } from "./workbench.js";

function place(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (!element) throw new Error(`The page has no #${id}.`);
  return element;
}

const pane = place("pane");
if (!(pane instanceof HTMLIFrameElement)) throw new Error("The pane has no frame.");
const places: PageElements = {
  bar: place("bar"),
  notices: place("notices"),
  start: place("start"),
  status: place("status"),
  stage: place("stage"),
  pane,
};

const workbench: Promise<Workbench> = import("./workbench.js").then(({ Workbench: Bench }) =>
  Bench.start(place("sheet")),
);
const page = new DeskPage(places, workbench);

// The pane starts folded if there is no room beside the sheet.
const narrow = window.matchMedia("(max-width: 700px)");
page.showPane(!narrow.matches);
narrow.addEventListener("change", () => {
  page.showPane(!narrow.matches);
});

const firstControl = (element: HTMLElement): void => element.querySelector<HTMLElement>("button")?.focus();
regionKeys([
  {
    element: places.bar,
    isShown: () => page.book !== undefined,
    focus: () => {
      firstControl(places.bar);
    },
  },
  { element: place("work"), isShown: () => true, focus: () => void page.focusWork() },
  {
    element: pane,
    isShown: () => page.book !== undefined && page.paneShown,
    focus: () => {
      pane.focus();
      pane.contentWindow?.focus();
    },
  },
]);

// Files can be dropped anywhere; otherwise the sheet would paste them.
const holdsFile = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") === true;
document.addEventListener(
  "dragover",
  (event) => {
    if (holdsFile(event)) event.preventDefault();
  },
  true,
);
document.addEventListener(
  "drop",
  (event) => {
    if (!holdsFile(event)) return;
    event.preventDefault();
    event.stopPropagation();
    const [file] = event.dataTransfer?.files ?? [];
    if (file) void page.openFile(file);
  },
  true,
);

void page.unsaved.find();
void keepOffline();
const asked = new URLSearchParams(location.search).get("file");
const example = asked === null ? undefined : exampleNamed(asked);
if (example !== undefined) void page.openExample(example);
else if (asked !== null)
  page.notices.say("file", {
    tone: "error",
    text: `${asked} does not come with the desk. The address can name ${Object.values(examples).join(", ")}; open other files with the button.`,
  });
