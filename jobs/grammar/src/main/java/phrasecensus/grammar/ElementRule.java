package phrasecensus.grammar;

import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What is read of one element: its attributes, its children, and for an element with a value which
 * texts are valid and what follows from another one. Everything without a rule is dropped.
 */
public final class ElementRule {
  /** An attribute that is read. */
  public record Attribute(String name, ValueRule value, String consequence) {}

  private static final Attribute[] NO_ATTRIBUTES = {};

  /** The element's local name, interned. */
  public final String name;

  /** Valid values; null for an element that holds others, or nothing. */
  public final ValueRule value;

  /** What is done with an invalid value, for a message; may be empty. */
  public final String consequence;

  /** True when the element may stand several times in its parent. */
  public final boolean repeatable;

  private Attribute[] attributes = NO_ATTRIBUTES;
  private final Map<String, ElementRule> children = new LinkedHashMap<>();

  private int bit;

  private int required;

  private int bits;

  private ElementRule(String name, ValueRule value, String consequence, boolean repeatable) {
    // As the parser interns its names, they are found without a look at their letters.
    this.name = name.intern();
    this.value = value;
    this.consequence = consequence;
    this.repeatable = repeatable;
  }

  /** An element that holds others, or nothing. */
  public static ElementRule group(String name, ElementRule... children) {
    return new ElementRule(name, null, "", false).with(children);
  }

  /** An element that holds others and may stand several times. */
  public static ElementRule groups(String name, ElementRule... children) {
    return new ElementRule(name, null, "", true).with(children);
  }

  /** An element with a value; {@code consequence} says what is done with an invalid one. */
  public static ElementRule value(String name, ValueRule value, String consequence) {
    return new ElementRule(name, value, consequence, false);
  }

  /** An element with a value that may stand several times. */
  public static ElementRule values(String name, ValueRule value, String consequence) {
    return new ElementRule(name, value, consequence, true);
  }

  /** Adds children. */
  public ElementRule with(ElementRule... more) {
    for (ElementRule child : more) {
      if (!child.repeatable) {
        child.bit = 1 << bits++;
      }
      children.put(child.name, child);
    }
    return this;
  }

  /** Adds an attribute. */
  public ElementRule attribute(String attribute, ValueRule rule, String consequenceOfInvalid) {
    Attribute[] more = Arrays.copyOf(attributes, attributes.length + 1);
    more[attributes.length] = new Attribute(attribute.intern(), rule, consequenceOfInvalid);
    attributes = more;
    return this;
  }

  /** Makes all children that may stand only once required, but the named one. */
  public ElementRule requiringAllBut(String optional) {
    required = ((1 << bits) - 1) & ~children.get(optional).bit;
    return this;
  }

  /** The rule of a child, or null when it is not read. */
  public ElementRule child(String childName) {
    return children.get(childName);
  }

  /** The children that are read, in the order of the table. */
  public Collection<ElementRule> children() {
    return Collections.unmodifiableCollection(children.values());
  }

  /** The attributes that are read; not to be changed. */
  public Attribute[] attributes() {
    return attributes;
  }

  /** Place among the children that may stand only once, as a bit; 0 for the others. */
  public int bit() {
    return bit;
  }

  /** Bits of the children without which the element is unreadable. */
  public int required() {
    return required;
  }
}
