import type { Given } from '../../shared/api/contract.ts';
import type { ScanProposal } from '../../shared/api/methods/scan-methods.ts';
import { Button } from '../ui/button.tsx';

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
