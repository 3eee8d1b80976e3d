/** The depth ruler in the built studio: a thing placed, dragged too deep, found, and made to fit. */
import { expect, test } from './support/kept-demo.ts';
import { keptAs, keptStates, showPart } from './support/page.ts';

test('a thing dragged too deep is found, the gain that fits is taken, and a reload keeps it', async ({
  page,
}) => {
  await page.goto('#/plan');
  await showPart(page, 'Depth');
  const [rendered] = await keptStates(page);
  await page.getByRole('button', { name: 'Add a thing' }).click();
  const name = page.getByRole('textbox', { name: 'Name of thing 1' });
  await name.fill('Lighthouse');
  await name.press('Enter');
  const pin = page.getByRole('slider', { name: 'Depth of Lighthouse' });
  await expect(pin).toHaveAttribute('aria-valuetext', /^Lighthouse, .* in front, sharp$/);

  await pin.scrollIntoViewIfNeeded();
  const ruler = (await page.getByRole('group', { name: 'Depth ruler' }).boundingBox())!;
  const circle = (await pin.boundingBox())!;
  await page.mouse.move(circle.x + circle.width / 2, circle.y + circle.height / 2);
  await page.mouse.down();
  await page.mouse.move(ruler.x + 20, circle.y + circle.height / 2, { steps: 5 });
  await page.mouse.up();
  await expect(pin).toHaveAttribute('aria-valuetext', /breaks up$/);
  const found = page.getByRole('heading', {
    name: 'The scene is deeper than the lens can show',
  });
  await expect(found).toBeVisible();

  // The drag was one step.
  await page.getByRole('button', { name: /^Undo/ }).first().click();
  await expect(pin).toHaveAttribute('aria-valuetext', /sharp$/);
  await page.getByRole('button', { name: /^Redo/ }).first().click();
  await page.getByRole('button', { name: /^Set depth gain to [\d.]+: all sharp/ }).click();
  await expect(pin).toHaveAttribute('aria-valuetext', /sharp$/);
  await expect(found).toHaveCount(0);

  await keptAs(page, (job) => job['depthGain'] !== rendered?.job['depthGain']);
  await page.reload();
  await expect(pin).toHaveAttribute('aria-valuetext', /^Lighthouse, .* in front, sharp$/);
});
