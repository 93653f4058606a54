import type { Stock } from '../../shared/api/methods/film-methods.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { useArchive } from '../api/use-query.ts';
import type { Route } from '../state/route.ts';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { Notice } from '../ui/notice.tsx';
import { CAST_AXES, CAST_FACTORS, FACTORS } from './cast-axes.ts';
import { castPoints } from './cast-points.ts';
import { CastTable } from './cast-table.tsx';
import { CastsSentence, type CastsQuestion } from './casts-sentence.tsx';
import { FaultFindings } from './fault-findings.tsx';
import { Measuring } from './measuring.tsx';
import { RollPanel } from './roll-panel.tsx';
import { ScatterPlot } from './scatter-plot.tsx';
import { TrendWords } from './trend-words.tsx';
import { useCasts } from './use-casts.ts';
import './casts-view.css';

/** C-41 developer: 37.8 ± 0.15 °C. Source: Kodak Z-131, Table 4-1. */
const C41_TOLERANCE = { eitherWay: 0.15, label: '37.8, 0.15 either way' };

/** Casts of the rolls of a stock against what the log knows of them, and where faults come together. */
export function CastsView({ route }: { readonly route: Route }) {
  const stocks = useArchive('stocks.list', {});
  if (stocks.error) return <Notice kind="failed" {...describeError(stocks.error)} />;
  if (!stocks.data) return <div className="casts" aria-busy="true" />;
  const withCasts = stocks.data.filter(({ rolls, process }) => rolls > 0 && process !== 'bw');
  const question = readQuestion(route.params, withCasts);
  const stock = withCasts.find(({ id }) => id === question?.stockId);
  if (!question || !stock) return <NoCasts />;
  return <AskedCasts key={stock.id} question={question} stock={stock} stocks={withCasts} route={route} />;
}

interface AskedProps {
  readonly question: CastsQuestion;
  readonly stock: Stock;
  readonly stocks: readonly Stock[];
  readonly route: Route;
}

function AskedCasts({ question, stock, stocks, route }: AskedProps) {
  const viewState = useViewState();
  const { causes, ofStock, all, error } = useCasts(stock.id);
  const { axis, factor } = question;
  const choose = (rollId: number) => viewState.adjust({ roll: String(rollId) });
  const sentence = (
    <>
      <h1 className="unseen">
        Cast {CAST_AXES[axis].label} of {stock.name} rolls, against {CAST_FACTORS[factor].label}
      </h1>
      <CastsSentence
        question={question}
        stocks={stocks}
        onQuestion={({ axis: of, factor: against, stockId }) =>
          viewState.adjust({
            of,
            against,
            stock: String(stockId),
            ...(stockId === stock.id ? {} : { roll: null }),
          })
        }
      />
    </>
  );
  if (!causes) {
    return (
      <div className="casts">
        {sentence}
        {error ? <Notice kind="failed" {...describeError(error)} /> : <Measuring stock={stock} />}
      </div>
    );
  }
  const others = new Set(
    stocks.filter(({ process, id }) => process === stock.process && id !== stock.id).map(({ name }) => name),
  );
  const drawn = castPoints(all?.rolls ?? causes.rolls, stock.name, others, axis, factor);
  const own = drawn.points.filter((point) => point.own).length;
  const trend = causes.trends.find(({ of, against }) => of === axis && against === factor) ?? null;
  const standing = ofStock
    .filter(({ cast }) => cast.against?.stands === true)
    .toSorted((one, other) => (other.cast.against?.deltaE00 ?? 0) - (one.cast.against?.deltaE00 ?? 0));
  const asked = Number(route.params['roll'] ?? Number.NaN);
  const chosen = Number.isInteger(asked) ? asked : (standing[0]?.rollId ?? null);
  const among = causes.rolls.filter((roll) => roll.a !== null);
  return (
    <div className="casts">
      {sentence}
      {error ? <Notice kind="failed" {...describeError(error)} /> : null}
      <div className="casts-desk">
        <div className="casts-plot">
          {drawn.points.length === 0 ? (
            <NothingToPlot stock={stock.name} measured={drawn.measured} factor={factor} />
          ) : (
            <ScatterPlot
              stock={stock.name}
              axis={axis}
              factor={factor}
              drawn={drawn}
              trend={trend}
              tolerance={factor === 'temperatureErrorC' && stock.process === 'c41' ? C41_TOLERANCE : null}
              chosen={chosen}
              standing={new Set(standing.map(({ rollId }) => rollId))}
              onChoose={choose}
            />
          )}
          {trend ? <TrendWords trend={trend} trends={causes.trends} unplaced={drawn.measured - own} /> : null}
        </div>
        <aside className="cast-roll" aria-label="One roll">
          {chosen === null ? (
            <p>
              {among.length === 0
                ? 'A roll whose cast is measured is shown here.'
                : 'No roll stands out from its stock. Point at a dot or a line of the list to see its roll here.'}
            </p>
          ) : (
            <RollPanel rollId={chosen} among={among} />
          )}
        </aside>
      </div>
      <CastTable
        stock={stock.name}
        factor={factor}
        rolls={causes.rolls}
        casts={ofStock}
        chosen={chosen}
        onChoose={choose}
      />
      {all ? <FaultFindings faults={all.faults} /> : null}
    </div>
  );
}

function NothingToPlot({
  stock,
  measured,
  factor,
}: {
  readonly stock: string;
  readonly measured: number;
  readonly factor: CastsQuestion['factor'];
}) {
  return (
    <EmptyState
      says={
        measured === 0
          ? `No roll of ${stock} has scans yet that say something about a cast. Each roll becomes a dot here.`
          : `${measured === 1 ? '1 roll' : `${measured} rolls`} of ${stock} ${measured === 1 ? 'has' : 'have'} a measured cast, but the log does not say the ${CAST_FACTORS[factor].label} of any. Write down the development and the roll becomes a dot here.`
      }
      drawing={<div className="casts-no-plot" aria-hidden="true" />}
    />
  );
}

function NoCasts() {
  const viewState = useViewState();
  return (
    <div className="casts casts-bare">
      <h1 className="unseen">Casts</h1>
      <EmptyState
        says="Each roll of a colour stock becomes a dot here once its scans lie on its frames: its cast, against what the log knows of its development."
        drawing={<div className="casts-no-plot" aria-hidden="true" />}
        action={
          <Button look="main" onPress={() => viewState.go({ view: 'scans' })}>
            Bring in scans
          </Button>
        }
      />
    </div>
  );
}

/** The question in the address; the stock with the most rolls where none is named. Null without any stock. */
function readQuestion(params: Route['params'], stocks: readonly Stock[]): CastsQuestion | null {
  const most = stocks.toSorted((one, other) => other.rolls - one.rolls)[0];
  const named = stocks.find(({ id }) => String(id) === params['stock']);
  const stock = named ?? most;
  if (!stock) return null;
  return {
    axis: params['of'] === 'b' ? 'b' : 'a',
    factor: FACTORS.find((factor) => factor === params['against']) ?? 'temperatureErrorC',
    stockId: stock.id,
  };
}
