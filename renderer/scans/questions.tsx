import type { Given } from '../../shared/api/contract.ts';
import type { ScanProposal } from '../../shared/api/methods/scan-methods.ts';
import { Button } from '../ui/button.tsx';
import { fileName } from './scan-words.ts';

export interface QuestionsProps {
  readonly questions: ScanProposal['questions'];
  readonly onAnswer: (options: Given<'scans.propose'>['options']) => void;
}

/** What only the user knows: each question with its answers as buttons. */
export function Questions({ questions, onAnswer }: QuestionsProps) {
  if (questions.length === 0) return null;
  return (
    <section className="scans-questions" aria-label="Questions">
      {questions.map((question) => (
        <div key={`${question.kind} ${question.text}`} className="scans-question">
          <p>{question.text}</p>
          {question.choices.length === 0 ? (
            <p className="scans-asked">{question.paths.map(fileName).join(', ')}</p>
          ) : null}
          {question.choices.length > 0 ? (
            <div className="scans-answers">
              {question.choices.map(({ text, options }) => (
                <Button key={text} onPress={() => onAnswer(options)}>
                  {text}
                </Button>
              ))}
            </div>
          ) : null}
        </div>
      ))}
    </section>
  );
}
