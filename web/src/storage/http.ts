// SPDX-License-Identifier: Apache-2.0
// Talks to the local server: JSON in and out, its errors as StorageFailure, a deadline on every request.
import { StorageFailure, type FailureKind } from './workspace';

interface ErrorBody {
  readonly error?: {
    readonly code?: string;
    readonly message?: string;
    readonly current_revision?: number;
    readonly current_changed?: string;
    readonly current_save_id?: string;
    readonly current_checksum?: string;
  };
}

const deadlineMilliseconds = 20_000;

export class HttpClient {
  /** Ends in a slash. */
  #base: string;
  #fetch: typeof fetch;

  constructor(base: string, fetchIt: typeof fetch = (...given) => fetch(...given)) {
    this.#base = base;
    this.#fetch = fetchIt;
  }

  async json<T>(method: string, address: string, body?: unknown): Promise<T> {
    const request: RequestInit = { method };
    if (body !== undefined) {
      request.body = JSON.stringify(body);
      request.headers = { 'Content-Type': 'application/json' };
    }
    return (await this.#answer(address, request).then(readJson)) as T;
  }

  async send<T>(method: string, address: string, body: Blob): Promise<T> {
    return (await this.#answer(address, { method, body }).then(readJson)) as T;
  }

  async blob(address: string, method = 'GET'): Promise<Blob> {
    return (await this.#answer(address, { method })).blob();
  }

  async #answer(address: string, request: RequestInit): Promise<Response> {
    let response: Response;
    try {
      const signal = AbortSignal.timeout(deadlineMilliseconds);
      response = await this.#fetch(this.#base + address, { ...request, signal, credentials: 'same-origin', cache: 'no-store' });
    } catch {
      throw new StorageFailure('unreachable', 'The server on this computer does not answer.');
    }
    if (response.ok) return response;
    throw failureOf(response, (await response.json().catch(() => ({}))) as ErrorBody);
  }
}

async function readJson(response: Response): Promise<unknown> {
  try {
    return await response.json();
  } catch {
    throw new StorageFailure('unreachable', 'The server broke off its answer.');
  }
}

function failureOf(response: Response, { error }: ErrorBody): StorageFailure {
  const message = error?.message ?? `The server answered ${response.status}.`;
  const current =
    error?.current_revision === undefined
      ? undefined
      : {
          revision: error.current_revision,
          changed: error.current_changed ?? '',
          checksum: error.current_checksum,
          ...(error.current_save_id !== undefined && { saveId: error.current_save_id }),
        };
  return new StorageFailure(kindOf(response.status), message, current);
}

function kindOf(status: number): FailureKind {
  if (status === 409) return 'conflict';
  if (status === 404) return 'not_found';
  if (status === 401) return 'unauthorised';
  if (status === 507) return 'full';
  return status === 502 || status === 503 || status === 504 ? 'unreachable' : 'refused';
}
