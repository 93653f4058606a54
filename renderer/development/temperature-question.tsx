import { formatTemperature } from '../../shared/text/format.ts';
import { Button } from '../ui/button.tsx';

/** Asks about a typed temperature that is probably another one. */
export function TemperatureQuestion({
  typedC,
  meantC,
  onTake,
  onInsist,
}: {
  readonly typedC: number;
  readonly meantC: number;
  readonly onTake: () => void;
  readonly onInsist: () => void;
}) {
  return (
    <div role="alert" className="temperature-question">
      <p>Is {formatTemperature(meantC)} meant?</p>
      <div className="development-row">
        <Button onPress={onTake}>Take {formatTemperature(meantC)}</Button>
        <Button look="quiet" onPress={onInsist}>
          It is {String(typedC).replace('-', '−')} °C
        </Button>
      </div>
    </div>
  );
}
