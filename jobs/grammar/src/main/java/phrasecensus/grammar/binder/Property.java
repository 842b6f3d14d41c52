package phrasecensus.grammar.binder;

import jakarta.xml.bind.JAXBElement;
import jakarta.xml.bind.annotation.XmlAttribute;
import jakarta.xml.bind.annotation.XmlElement;
import jakarta.xml.bind.annotation.XmlElementDecl;
import jakarta.xml.bind.annotation.XmlElementRef;
import jakarta.xml.bind.annotation.XmlElementRefs;
import jakarta.xml.bind.annotation.XmlElements;
import jakarta.xml.bind.annotation.XmlTransient;
import jakarta.xml.bind.annotation.XmlValue;
import jakarta.xml.bind.annotation.adapters.CollapsedStringAdapter;
import jakarta.xml.bind.annotation.adapters.XmlJavaTypeAdapter;
import java.lang.reflect.AnnotatedElement;
import java.lang.reflect.Field;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.Type;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One name under which a class with JAXB's annotations on its fields takes something.
 *
 * @param kind element, attribute or the text of the element itself
 * @param name the XML name; empty for {@link Kind#VALUE}
 * @param type the Java type of one occurrence
 * @param list true when occurrences are added to a list
 * @param accessor the setter, or the getter of the list
 * @param collapsed true when the text is a token of XML Schema
 * @param factory the factory method that wraps an occurrence, or empty
 */
record Property(
    Kind kind,
    String name,
    Class<?> type,
    boolean list,
    String accessor,
    boolean collapsed,
    String factory) {

  enum Kind {
    ELEMENT,
    ATTRIBUTE,
    VALUE
  }

  /** Everything a class takes, its superclasses' first. */
  static List<Property> of(Class<?> bean, Class<?> objectFactory) {
    List<Property> found = new ArrayList<>();
    if (bean.getSuperclass() != null && bean.getSuperclass() != Object.class) {
      found.addAll(of(bean.getSuperclass(), objectFactory));
    }
    for (Field field : bean.getDeclaredFields()) {
      if (!Modifier.isStatic(field.getModifiers())
          && !field.isSynthetic()
          && !field.isAnnotationPresent(XmlTransient.class)) {
        add(field, objectFactory, found);
      }
    }
    return found;
  }

  private static void add(Field field, Class<?> objectFactory, List<Property> found) {
    XmlAttribute attribute = field.getAnnotation(XmlAttribute.class);
    if (attribute != null) {
      found.add(plain(Kind.ATTRIBUTE, name(attribute.name(), field), occurrence(field), field));
    } else if (field.isAnnotationPresent(XmlValue.class)) {
      found.add(plain(Kind.VALUE, "", occurrence(field), field));
    } else if (field.isAnnotationPresent(XmlElements.class)) {
      for (XmlElement element : field.getAnnotation(XmlElements.class).value()) {
        found.add(plain(Kind.ELEMENT, name(element.name(), field), type(element, field), field));
      }
    } else if (field.isAnnotationPresent(XmlElementRefs.class)) {
      for (XmlElementRef reference : field.getAnnotation(XmlElementRefs.class).value()) {
        found.add(wrapped(reference, field, objectFactory));
      }
    } else if (field.isAnnotationPresent(XmlElementRef.class)) {
      found.add(wrapped(field.getAnnotation(XmlElementRef.class), field, objectFactory));
    } else {
      XmlElement element = field.getAnnotation(XmlElement.class);
      found.add(
          element == null
              ? plain(Kind.ELEMENT, field.getName(), occurrence(field), field)
              : plain(Kind.ELEMENT, name(element.name(), field), type(element, field), field));
    }
  }

  private static Property plain(Kind kind, String name, Class<?> type, Field field) {
    boolean list = List.class.isAssignableFrom(field.getType());
    return new Property(
        kind, name, type, list, accessor(field, list), isCollapsed(field, field), "");
  }

  private static Property wrapped(XmlElementRef reference, Field field, Class<?> objectFactory) {
    String place = field.getDeclaringClass().getName() + "." + field.getName();
    if (reference.type() != JAXBElement.class) {
      throw new BinderException(place + " refers to " + reference.type() + ", no declared element");
    }
    Method creator =
        creator(reference.name(), field.getDeclaringClass(), objectFactory)
            .or(() -> creator(reference.name(), XmlElementDecl.GLOBAL.class, objectFactory))
            .orElseThrow(
                () ->
                    new BinderException(
                        "no factory method makes " + reference.name() + " for " + place));
    boolean list = List.class.isAssignableFrom(field.getType());
    return new Property(
        Kind.ELEMENT,
        reference.name(),
        creator.getParameterTypes()[0],
        list,
        accessor(field, list),
        isCollapsed(creator, field),
        creator.getName());
  }

  private static Optional<Method> creator(String name, Class<?> scope, Class<?> objectFactory) {
    for (Method method : objectFactory.getDeclaredMethods()) {
      XmlElementDecl declared = method.getAnnotation(XmlElementDecl.class);
      if (declared != null && declared.name().equals(name) && declared.scope() == scope) {
        return Optional.of(method);
      }
    }
    return Optional.empty();
  }

  private static boolean isCollapsed(AnnotatedElement annotated, Field field) {
    XmlJavaTypeAdapter adapter = annotated.getAnnotation(XmlJavaTypeAdapter.class);
    if (adapter != null && adapter.value() != CollapsedStringAdapter.class) {
      throw new BinderException(
          "the adapter " + adapter.value().getName() + " of " + field + " is not known");
    }
    return adapter != null;
  }

  private static String name(String given, Field field) {
    return given.equals("##default") ? field.getName() : given;
  }

  private static Class<?> type(XmlElement element, Field field) {
    return element.type() == XmlElement.DEFAULT.class ? occurrence(field) : element.type();
  }

  private static Class<?> occurrence(Field field) {
    Type type = field.getGenericType();
    if (type instanceof ParameterizedType list) {
      type = list.getActualTypeArguments()[0];
    }
    return type instanceof Class<?> plain ? plain : Object.class;
  }

  private static String accessor(Field field, boolean list) {
    String name = field.getName().replaceFirst("^_", "");
    return (list ? "get" : "set") + Character.toUpperCase(name.charAt(0)) + name.substring(1);
  }
}
