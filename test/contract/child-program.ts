import { serve } from '../../shared/api/rpc.ts';
import { processTransport } from '../../main/transport/child-process.ts';
import { makeTestService } from './test-methods.ts';

serve(processTransport(process), makeTestService(), { newReference: () => 'ref-1', onBug: () => {} });
