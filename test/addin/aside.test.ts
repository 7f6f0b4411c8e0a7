/** What is calculated in a worker: one thing after the other, given up where it is taken back, left to the page where there is none. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Aside, type Helper, type Question, type Told } from '../../src/addin/aside.ts';
import { hostCall } from '../../src/addin/associate.ts';
import { calculator } from '../../src/addin/calculator.ts';
import { answerPage } from '../../src/addin/in-worker.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { CALCULATION_VERSION } from '../../src/core/version.ts';
import { call } from '../../src/sheet/call.ts';
import { explain } from '../../src/sheet/explain.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import type { HostFunction } from '../../src/sheet/host-function.ts';

class PlayedWorker implements Helper {
  readonly asked: string[] = [];
  ended = false;
  onmessage: Helper['onmessage'] = null;
  onerror: Helper['onerror'] = null;
  postMessage({ name }: Question): void {
    this.asked.push(name);
  }
  terminate(): void {
    this.ended = true;
  }
  tell(data: Told): void {
    this.onmessage?.({ data });
  }
  fail(): void {
    this.onerror?.({ preventDefault: () => undefined });
  }
}

function played(): { readonly aside: Aside; readonly workers: PlayedWorker[] } {
  const workers: PlayedWorker[] = [];
  return { workers, aside: new Aside(() => workers[workers.push(new PlayedWorker()) - 1]!) };
}
const CURRENT = { version: CALCULATION_VERSION };
const cells = (value: number): { readonly cells: readonly (readonly number[])[] } => ({ cells: [[value]] });
const none = (): void => undefined;
const ask = (name: string): Question => ({ name, args: [], explained: false });

describe('what is calculated aside', () => {
  it('is asked of one worker, one thing after the other, once it is there', async () => {
    const { aside, workers } = played();
    const [one, two] = [aside.calculate(ask('ONE')), aside.calculate(ask('TWO'))];
    const [worker] = workers;
    expect(workers).toHaveLength(1);
    expect(worker!.asked).toEqual([]);
    worker!.tell(CURRENT);
    expect(worker!.asked).toEqual(['ONE']);
    worker!.tell(cells(1));
    expect(worker!.asked).toEqual(['ONE', 'TWO']);
    worker!.tell(cells(2));
    expect(await Promise.all([one, two])).toEqual([cells(1), cells(2)]);
  });

  it('ends the worker where the work in hand is taken back, and asks a new one for the rest', async () => {
    const { aside, workers } = played();
    let stop = none;
    const one = aside.calculate(ask('ONE'), (by) => (stop = by));
    const two = aside.calculate(ask('TWO'));
    workers[0]!.tell(CURRENT);
    stop();
    expect(await one).toBeUndefined();
    expect(workers.map((w) => w.ended)).toEqual([true, false]);
    workers[1]!.tell(CURRENT);
    expect(workers[1]!.asked).toEqual(['TWO']);
    workers[1]!.tell(cells(2));
    expect(await two).toEqual(cells(2));
    stop();
    expect(workers[1]!.ended).toBe(false);
  });

  it('is left out where it is taken back before its turn, and the work in hand goes on', async () => {
    const { aside, workers } = played();
    let stop = none;
    const one = aside.calculate(ask('ONE'));
    const two = aside.calculate(ask('TWO'), (by) => (stop = by));
    workers[0]!.tell(CURRENT);
    stop();
    workers[0]!.tell(cells(1));
    expect(await Promise.all([one, two])).toEqual([cells(1), undefined]);
    expect(workers[0]!.asked).toEqual(['ONE']);
    expect(workers[0]!.ended).toBe(false);
  });

  it.each<[string, (worker: PlayedWorker) => void]>([
    ['cannot be loaded', (worker) => worker.fail()],
    ['is of another version', (worker) => worker.tell({ version: '2000.01.01' })],
  ])('is left to the page, then and later, where the worker %s', async (_, happens) => {
    const { aside, workers } = played();
    const one = aside.calculate(ask('ONE'));
    happens(workers[0]!);
    expect(await one).toBeUndefined();
    expect(workers[0]!.ended).toBe(true);
    expect(await aside.calculate(ask('TWO'))).toBeUndefined();
    expect(workers).toHaveLength(1);
  });

  it('is left to the page where no worker can be made', async () => {
    const aside = new Aside(() => {
      throw new Error('refused by the policy');
    });
    expect(await aside.calculate(ask('ONE'))).toBeUndefined();
  });
});

describe('a function that is worked out in one piece', () => {
  const LIST = [[4, 10]];
  beforeEach(() =>
    vi.stubGlobal('CustomFunctions', { Error, ErrorCode: { notAvailable: '#N/A', invalidValue: '#VALUE!' } }),
  );
  afterEach(() => vi.unstubAllGlobals());
  const stock = hostFunctions.find((f) => f.name === 'BURN.JOB.STOCK')!;
  /** A worker that runs the script's own part. */
  function working(): Aside {
    return new Aside(() => {
      const page: Helper = {
        postMessage: (data) => inside.onmessage?.({ data }),
        terminate: none,
        onmessage: null,
        onerror: null,
      };
      const inside: Parameters<typeof answerPage>[0] = {
        onmessage: null,
        postMessage: (data) => queueMicrotask(() => page.onmessage?.({ data })),
      };
      queueMicrotask(() => answerPage(inside, hostFunctions));
      return page;
    });
  }

  it('gives aside what it gives in the page: to a cell, and to the pane with what it rests on', async () => {
    const aside = working();
    expect(await hostCall(stock, { aside })(LIST, null, null)).toEqual(hostCall(stock)(LIST, null, null));
    const inPane = calculator(hostFunctions, aside);
    for (const [name, args] of [
      ['BURN.JOB.STOCK', [LIST]],
      ['BURN.JOB.COST', [LIST, [['rod', 9]]]],
    ] as const) {
      const d = findFunction(name)!;
      const { steps, result, assumptions } = explain(d, args);
      expect(await inPane(name, args)).toEqual({ cells: call(d, args), explanation: { steps, result, assumptions } });
      expect(steps.length + assumptions.size).toBeGreaterThan(0);
      expect(await calculator(hostFunctions, undefined)(name, args)).toEqual({ cells: call(d, args) });
    }
    const failed = await inPane('BURN.JOB.STOCK', [[['wide', 10]]]);
    expect(failed).toEqual({ cells: call(findFunction('BURN.JOB.STOCK')!, [[['wide', 10]]]) });
  });

  it('is any table that is made of a list, and no other', () => {
    const inOnePiece = (f: HostFunction): boolean => f.inOnePiece === true;
    const names = hostFunctions.filter(inOnePiece).map((f) => f.name);
    expect(names).toEqual(
      expect.arrayContaining(['BURN.ASSUME.EFFECT', 'BURN.JOB.COMPARE', 'BURN.LOG.FIT', 'BURN.SPREAD']),
    );
    expect(names).not.toContain('BURN.PIN.PLAN');
    expect(names).not.toContain('BURN.ASSUMED');
  });
});
