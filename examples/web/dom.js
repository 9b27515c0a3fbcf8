// Elements without markup in strings, so that no text of a document becomes markup.

/** An element with properties and children; texts become text nodes. */
export function make(tag, properties = {}, ...children) {
  const element = Object.assign(document.createElement(tag), properties);
  element.append(...children.filter((child) => child !== null));
  return element;
}
