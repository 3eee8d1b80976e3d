/** The demo scenes, which the desk does not know by itself: the composition root tells where they are. */

export interface DemoShelf {
  readonly demos: readonly {
    readonly name: string;
    readonly title: string;
    readonly description: string;
  }[];
  openDemo(name: string): Promise<void>;
}

let load: (() => Promise<DemoShelf>) | undefined;

export const offerDemos = (from: () => Promise<DemoShelf>): void => {
  load = from;
};

/** None where none are offered. */
export const demoShelf = (): Promise<DemoShelf> =>
  load?.() ?? Promise.resolve({ demos: [], openDemo: () => Promise.resolve() });
