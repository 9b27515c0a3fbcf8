// One error class for each kind of failure; the facts are fields.

/** Any failure of a call. */
export class TautworkError extends Error {
  constructor(message, facts = {}) {
    super(message);
    Object.assign(this, facts);
    this.name = new.target.name;
  }
}

/** An argument is missing, of the wrong type, or outside its range. */
export class InvalidInput extends TautworkError {}
/** A quantity has no unit, an unknown unit, or one of another kind. */
export class UnitError extends TautworkError {}
/** The model has no answer for these inputs. */
export class ModelError extends TautworkError {}
/** A solver ran out of its budget. */
export class NoConvergence extends TautworkError {}
/** A document holds mistakes. */
export class DocumentError extends TautworkError {}

const classes = { InvalidInput, UnitError, ModelError, NoConvergence, DocumentError };

/** What `run` gives back; a failure is thrown as the error of its kind. */
export function raised(run) {
  try {
    return run();
  } catch (failure) {
    const Kind = classes[failure?.kind];
    throw Kind ? new Kind(failure.message, failure.facts) : failure;
  }
}
