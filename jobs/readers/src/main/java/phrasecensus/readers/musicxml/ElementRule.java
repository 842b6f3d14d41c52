package phrasecensus.readers.musicxml;

import java.util.HashMap;
import java.util.Map;

/**
 * What is read of one element: its attributes, its children, and for an element with a value which
 * texts are valid and what follows from another one. Everything without a rule is dropped.
 */
final class ElementRule {
  /** An attribute that is read. */
  record Attribute(String name, ValueRule value, String consequence) {}

  private static final Attribute[] NO_ATTRIBUTES = {};

  final String name;
  final ValueRule value;
  final String consequence;
  final boolean repeatable;
  Attribute[] attributes = NO_ATTRIBUTES;
  private final Map<String, ElementRule> children = new HashMap<>();

  /** Place among the children that may stand only once, as a bit; 0 for the others. */
  int bit;

  /** Bits of the children without which the element is unreadable. */
  int required;

  private int bits;

  private ElementRule(String name, ValueRule value, String consequence, boolean repeatable) {
    // As the parser interns its names, they are found without a look at their letters.
    this.name = name.intern();
    this.value = value;
    this.consequence = consequence;
    this.repeatable = repeatable;
  }

  /** An element that holds others, or nothing. */
  static ElementRule group(String name, ElementRule... children) {
    return new ElementRule(name, null, "", false).with(children);
  }

  /** An element that holds others and may stand several times. */
  static ElementRule groups(String name, ElementRule... children) {
    return new ElementRule(name, null, "", true).with(children);
  }

  /** An element with a value; {@code consequence} says what is done with an invalid one. */
  static ElementRule value(String name, ValueRule value, String consequence) {
    return new ElementRule(name, value, consequence, false);
  }

  /** An element with a value that may stand several times. */
  static ElementRule values(String name, ValueRule value, String consequence) {
    return new ElementRule(name, value, consequence, true);
  }

  ElementRule with(ElementRule... more) {
    for (ElementRule child : more) {
      if (!child.repeatable) {
        child.bit = 1 << bits++;
      }
      children.put(child.name, child);
    }
    return this;
  }

  ElementRule attribute(String attribute, ValueRule rule, String consequenceOfInvalid) {
    Attribute[] more = java.util.Arrays.copyOf(attributes, attributes.length + 1);
    more[attributes.length] = new Attribute(attribute.intern(), rule, consequenceOfInvalid);
    attributes = more;
    return this;
  }

  /** Makes all children that may stand only once required, but the named one. */
  ElementRule requiringAllBut(String optional) {
    required = ((1 << bits) - 1) & ~children.get(optional).bit;
    return this;
  }

  ElementRule child(String childName) {
    return children.get(childName);
  }
}
