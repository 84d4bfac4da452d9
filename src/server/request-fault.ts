/** A request that cannot be answered as it is: the HTTP status, and one sentence for the builder. */
export class RequestFault extends Error {
  readonly status: 400 | 401 | 403 | 404 | 409 | 413 | 415 | 422 | 429 | 503 | 507;

  constructor(status: RequestFault['status'], sentence: string) {
    super(sentence);
    this.name = 'RequestFault';
    this.status = status;
  }
}
