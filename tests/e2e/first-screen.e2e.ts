/**
 * What a first-time maker reads without a press: on each bench three questions, each answered within the first
 * screen. And the cautions, each in the panel of the advice that it belongs to.
 */
import type { Locator, Page } from 'playwright/test';
import { cautionWords } from '../../src/job/words/cautions.ts';
import { expect, test } from './support/kept-demo.ts';
import { field, showPart, type } from './support/page.ts';

const SCREEN = { width: 1440, height: 900 };

type Answers = Readonly<Record<string, (page: Page) => Locator>>;

const button = (name: string | RegExp) => (page: Page) =>
  page.locator('main').getByRole('button', { name });
const says = (text: string | RegExp) => (page: Page) =>
  page.locator('main').getByText(text).first();

const questions: Readonly<Record<string, Answers>> = {
  plan: {
    'Will this lens do for my printer and size?': says(/^This 60 LPI lens suits/),
    'What will be lost?': says(/^Each view carries a ghost/),
    'Which lens should I buy?': (page) => page.getByRole('heading', { name: 'Which lens?' }),
  },
  shoot: {
    'How large is my scene where it should look flat?': (page) =>
      field(page, 'Width at the key plane'),
    'How far apart do the cameras stand?': says('From camera to camera'),
    'How do they get into my 3D program?': button(/^One moving camera/),
  },
  calibrate: {
    'What is to be printed?': says(/^A (fine|coarse) strip is advised/),
    'How do I get it?': button('Weave strip'),
    'From how far will I look at it?': (page) => field(page, 'Reading distance'),
  },
  frames: {
    'Are all my frames here?': says(/^12 here for 12 view slots, none missing/),
    'How do I bring mine?': says('Add frames'),
    'They run the wrong way: what now?': button('Reverse order'),
  },
  weave: {
    'What will it look like?': (page) => page.getByTestId('tilt-proof'),
    'How does it change as I walk past?': (page) => page.getByRole('slider', { name: 'Tilt' }),
    'How do I get the file to print?': button('Weave sheet'),
  },
  mount: {
    'What do I do first?': says('Prove the pitch first.'),
    'How far am I?': says(/^0 %, 0 of \d+ steps$/),
    'What paper do I load?': says('One kind of paper.'),
  },
  mend: {
    'What went wrong with my print?': says('What do you see on your print?'),
    'It jumps: is that meant here?': says('It jumps straight ahead'),
    'Can it look at a photo instead?': says('Choose a photo of the print'),
  },
};

test('three questions on each bench are answered in the first screen, without a press', async ({
  page,
}) => {
  await page.setViewportSize(SCREEN);
  const missed: string[] = [];
  for (const [bench, answers] of Object.entries(questions)) {
    await page.goto(`./#/${bench}`);
    await expect(page.getByRole('heading', { level: 1 })).toHaveText(new RegExp(bench, 'i'));
    for (const [question, answer] of Object.entries(answers)) {
      await expect(answer(page), `${bench}: ${question}`).toBeVisible();
      const box = await answer(page).boundingBox();
      const end = (box?.y ?? NaN) + (box?.height ?? NaN);
      if (!((box?.y ?? NaN) >= 0 && end <= SCREEN.height))
        missed.push(`${bench}: ${question} ends at ${Math.round(end)}`);
    }
    expect(await page.evaluate(() => scrollY), bench).toBe(0);
  }
  expect(missed).toEqual([]);
});

test('each caution stands in the panel of its advice: Shoot, Frames, Weave, Mend', async ({
  page,
}) => {
  const besides = async (advice: Locator, text: string | RegExp) => {
    const panel = page.locator('main section').filter({ has: advice });
    await expect(panel.getByText(text).first()).toBeVisible();
  };
  const { adhesives, blades, depth, edges, flashing } = cautionWords;

  await page.goto('./#/weave');
  const proof = page.getByTestId('tilt-proof');
  for (const { say } of [flashing, depth]) await besides(proof, say);
  await besides(proof, /Sway keeps to no more than three flashes in any one second/);

  await page.goto('./#/shoot');
  await type(page, 'Nearest thing', '300 mm');
  await besides(field(page, 'Nearest thing'), 'The scene reaches beyond the sharp range');
  await showPart(page, 'Photographed');
  const ways = page.getByRole('combobox', { name: 'Frames are made' });
  await ways.selectOption({ label: 'Turntable' });
  await besides(ways, /^The thing turns and the camera stands/);

  await page.goto('./#/frames');
  const recipe = page.getByRole('radiogroup', { name: 'Recipe' });
  await recipe.getByRole('radio', { name: 'Flip' }).check();
  await besides(recipe, flashing.say);

  await page.goto('./#/mend');
  await page.getByRole('radio', { name: /^Bands that slant/ }).check();
  await besides(page.getByRole('slider', { name: 'Tilt' }), flashing.say);
  await page.getByRole('button', { name: /print turned anticlockwise/ }).click();
  await type(page, 'Bands, counted top to bottom', '1.5');
  await page
    .getByLabel('Head goes right: the bands go')
    .selectOption({ label: 'Along the ribs, up' });
  const turn = page.getByText(/^Turn the print clockwise by/);
  for (const { say } of [adhesives, edges]) await besides(turn, say);
  for (const { say } of [blades, edges])
    await besides(page.getByRole('button', { name: 'Weave slice' }), say);
});
