package phrasecensus.grammar.binder;

import jakarta.xml.bind.annotation.XmlEnumValue;
import java.lang.reflect.Field;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.grammar.ElementRule;
import phrasecensus.grammar.ValueRule.Form;

/**
 * The source of a class that turns elements into objects: what it reads stands in rules, which
 * object takes it in JAXB's annotations. A rule that the annotations do not bear out ends the
 * build.
 *
 * <p>The stream of the class written has {@code next}, {@code isAtStart}, {@code name}, {@code
 * passOver}, {@code attribute}, {@code text}, {@code decimal} and {@code whole}. Every method
 * written is called where an element starts and leaves the stream behind its end.
 */
final class BinderSource {
  private final String packageName;
  private final String className;
  private final String streamClass;
  private final Class<?> objectFactory;
  private final StringBuilder methods = new StringBuilder();
  private final Map<String, String> readers = new LinkedHashMap<>();
  private final Map<String, Class<?>> enums = new TreeMap<>();

  BinderSource(String packageName, String className, String streamClass, Class<?> objectFactory) {
    this.packageName = packageName;
    this.className = className;
    this.streamClass = streamClass;
    this.objectFactory = objectFactory;
  }

  /** Adds a method, named after the element, that gives the element's object. */
  BinderSource element(Class<?> bean, ElementRule rule) {
    String reader = reader(bean, rule);
    method(bean.getCanonicalName(), camelCase(rule.name), "    return " + reader + "();\n", "");
    return this;
  }

  /** Adds a method that gives the one list of an object whose attributes are read elsewhere. */
  BinderSource contents(String name, Class<?> bean, ElementRule rule) {
    StringBuilder body = created(bean);
    children(bean, rule, body);
    String accessor =
        property(bean, Property.Kind.ELEMENT, rule.children().iterator().next().name).accessor();
    body.append("    return bean.").append(accessor).append("();\n");
    method("java.util.List<Object>", name, body.toString(), "");
    return this;
  }

  /** The whole source. */
  String text() {
    StringBuilder source = new StringBuilder();
    source
        .append("package " + packageName + ";\n\n")
        .append("import javax.xml.stream.XMLStreamException;\n\n")
        .append("/** Written by the build from annotations and the table of what is read. */\n")
        .append("final class " + className + " {\n")
        .append("  private static final " + objectFactory.getCanonicalName() + " FACTORY =\n")
        .append("      new " + objectFactory.getCanonicalName() + "();\n\n")
        .append("  private final " + streamClass + " stream;\n\n")
        .append("  " + className + "(" + streamClass + " stream) {\n")
        .append("    this.stream = stream;\n  }\n")
        .append(methods);
    enums.values().forEach(type -> source.append(words(type)));
    return source.append("}\n").toString();
  }

  private String reader(Class<?> bean, ElementRule rule) {
    StringBuilder body = created(bean);
    for (ElementRule.Attribute attribute : rule.attributes()) {
      Property property = property(bean, Property.Kind.ATTRIBUTE, attribute.name());
      String place = "attribute " + attribute.name() + " of " + rule.name;
      String local = "given" + capital(camelCase(attribute.name()));
      body.append("    String " + local + " = stream.attribute(\"" + attribute.name() + "\");\n");
      body.append("    if (" + local + " != null) {\n");
      body.append("      bean." + property.accessor() + "(");
      body.append(
          fromText(property, attribute.value().form(), attribute.value().words(), local, place));
      body.append(");\n    }\n");
    }
    if (rule.value != null) {
      Property value = property(bean, Property.Kind.VALUE, "");
      body.append("    bean." + value.accessor() + "(" + simple(value, rule) + ");\n");
    } else if (rule.children().isEmpty()) {
      body.append("    stream.passOver();\n");
    } else {
      children(bean, rule, body);
    }
    body.append("    return bean;\n");
    String same = readers.get(body.toString() + bean);
    if (same != null) {
      return same;
    }
    String name = "read" + bean.getSimpleName();
    for (int i = 2; readers.containsValue(name); i++) {
      name = "read" + bean.getSimpleName() + i;
    }
    readers.put(body.toString() + bean, name);
    method(bean.getCanonicalName(), name, body.toString(), "private ");
    return name;
  }

  private static StringBuilder created(Class<?> bean) {
    String type = bean.getCanonicalName();
    return new StringBuilder("    " + type + " bean = new " + type + "();\n");
  }

  private void children(Class<?> bean, ElementRule rule, StringBuilder body) {
    body.append("    stream.next();\n    while (stream.isAtStart()) {\n");
    body.append("      switch (stream.name()) {\n");
    for (ElementRule child : rule.children()) {
      Property property = property(bean, Property.Kind.ELEMENT, child.name);
      String value =
          isSimple(property.type())
              ? simple(property, child)
              : reader(property.type(), child) + "()";
      if (!property.factory().isEmpty()) {
        value = "FACTORY." + property.factory() + "(" + value + ")";
      }
      body.append("        case \"" + child.name + "\" -> bean." + property.accessor());
      body.append(property.list() ? "().add(" + value + ");\n" : "(" + value + ");\n");
    }
    body.append("        default -> stream.passOver();\n      }\n    }\n    stream.next();\n");
  }

  private Property property(Class<?> bean, Property.Kind kind, String name) {
    return Property.of(bean, objectFactory).stream()
        .filter(property -> property.kind() == kind && property.name().equals(name))
        .findFirst()
        .orElseThrow(
            () ->
                new BinderException(
                    bean.getSimpleName()
                        + " takes no "
                        + (kind + " " + name).toLowerCase(Locale.ROOT).strip()));
  }

  private static boolean isSimple(Class<?> type) {
    return type.isPrimitive() || type.isEnum() || type.getName().startsWith("java.");
  }

  /** The value of the element that starts here. */
  private String simple(Property property, ElementRule rule) {
    String place = "element " + rule.name;
    if (rule.value == null) {
      throw new BinderException(place + " has a value, but the table gives it none");
    }
    Form form = rule.value.form();
    Class<?> type = property.type();
    if (type == BigDecimal.class && (form == Form.DECIMAL || form == Form.WHOLE)) {
      return "stream.decimal()";
    }
    if (type == BigInteger.class && form == Form.WHOLE) {
      return "java.math.BigInteger.valueOf(stream.whole())";
    }
    if ((type == Integer.class || type == int.class) && form == Form.WHOLE) {
      return "stream.whole()";
    }
    return fromText(property, form, rule.value.words(), "stream.text()", place);
  }

  private String fromText(
      Property property, Form form, List<String> words, String text, String place) {
    Class<?> type = property.type();
    if (type == String.class) {
      return property.collapsed() ? streamClass + ".token(" + text + ")" : text;
    }
    if (type.isEnum() && form == Form.WORDS) {
      Map<String, String> constants = constants(type);
      for (String word : words) {
        if (!constants.containsKey(word)) {
          throw new BinderException(type.getSimpleName() + " has no '" + word + "', as " + place);
        }
      }
      enums.put(type.getCanonicalName(), type);
      return "to" + type.getSimpleName() + "(" + text + ")";
    }
    boolean whole = form == Form.WHOLE;
    if (type == BigDecimal.class && (whole || form == Form.DECIMAL)) {
      return "new java.math.BigDecimal(" + text + ")";
    }
    if (type == BigInteger.class && whole) {
      return "new java.math.BigInteger(" + text + ")";
    }
    if ((type == Integer.class || type == int.class) && whole) {
      return "Integer.valueOf(" + text + ")";
    }
    throw new BinderException(place + ": " + type.getSimpleName() + " cannot hold what is " + form);
  }

  private static String words(Class<?> type) {
    StringBuilder body = new StringBuilder();
    String name = type.getCanonicalName();
    body.append("\n  private static " + name + " to" + type.getSimpleName() + "(String word) {\n");
    body.append("    return switch (word) {\n");
    constants(type)
        .forEach(
            (word, constant) ->
                body.append("      case \"" + word + "\" -> " + name + "." + constant + ";\n"));
    return body.append("      default -> null;\n    };\n  }\n").toString();
  }

  /** Constants of an enumeration by their words. */
  private static Map<String, String> constants(Class<?> type) {
    Map<String, String> constants = new LinkedHashMap<>();
    for (Field field : type.getFields()) {
      if (field.isEnumConstant()) {
        XmlEnumValue word = field.getAnnotation(XmlEnumValue.class);
        constants.put(word == null ? field.getName() : word.value(), field.getName());
      }
    }
    return constants;
  }

  private void method(String type, String name, String body, String access) {
    methods.append("\n  " + access + type + " " + name + "() throws XMLStreamException {\n");
    methods.append(body).append("  }\n");
  }

  private static String camelCase(String name) {
    StringBuilder camel = new StringBuilder();
    for (String part : name.split("-")) {
      camel.append(camel.isEmpty() ? part : capital(part));
    }
    return camel.toString();
  }

  private static String capital(String name) {
    return Character.toUpperCase(name.charAt(0)) + name.substring(1);
  }
}
