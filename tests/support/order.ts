// The order in which test files are run.
import { BaseSequencer, type TestSpecification } from "vitest/node";

/**
 * Tests in a browser first: they wait more than they calculate, and types, lint and format are checked meanwhile. Within
 * both halves the files that took longest the last time come first, so that none runs alone in the end.
 */
export class BrowserFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const longestFirst = await super.sort(files);
    const inBrowser = ({ moduleId }: TestSpecification): boolean => moduleId.includes("/tests/e2e/");
    return [...longestFirst.filter(inBrowser), ...longestFirst.filter((file) => !inBrowser(file))];
  }
}
