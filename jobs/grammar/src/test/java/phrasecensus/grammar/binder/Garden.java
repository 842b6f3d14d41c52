package phrasecensus.grammar.binder;

import jakarta.xml.bind.JAXBElement;
import jakarta.xml.bind.annotation.XmlAccessType;
import jakarta.xml.bind.annotation.XmlAccessorType;
import jakarta.xml.bind.annotation.XmlAttribute;
import jakarta.xml.bind.annotation.XmlElement;
import jakarta.xml.bind.annotation.XmlElementDecl;
import jakarta.xml.bind.annotation.XmlElementRef;
import jakarta.xml.bind.annotation.XmlElementRefs;
import jakarta.xml.bind.annotation.XmlElements;
import jakarta.xml.bind.annotation.XmlEnumValue;
import jakarta.xml.bind.annotation.XmlTransient;
import jakarta.xml.bind.annotation.XmlValue;
import jakarta.xml.bind.annotation.adapters.CollapsedStringAdapter;
import jakarta.xml.bind.annotation.adapters.NormalizedStringAdapter;
import jakarta.xml.bind.annotation.adapters.XmlJavaTypeAdapter;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import javax.xml.namespace.QName;

/** A small class with every annotation that the writer of binders knows. */
@XmlAccessorType(XmlAccessType.FIELD)
public class Garden {
  protected String owner;

  @XmlElement(name = "plot-count")
  protected BigInteger plots;

  @XmlElements({
    @XmlElement(name = "tree", type = Tree.class),
    @XmlElement(name = "depth", type = BigDecimal.class)
  })
  protected List<Object> treeOrDepth;

  @XmlElementRefs({@XmlElementRef(name = "sign", type = JAXBElement.class)})
  protected List<JAXBElement<String>> signs;

  @XmlAttribute(name = "soil")
  protected Soil ground;

  @XmlAttribute
  @XmlJavaTypeAdapter(CollapsedStringAdapter.class)
  protected String label;

  @XmlTransient protected String unseen;

  public String getOwner() {
    return owner;
  }

  public void setOwner(String value) {
    owner = value;
  }

  public BigInteger getPlots() {
    return plots;
  }

  public void setPlots(BigInteger value) {
    plots = value;
  }

  /** Trees and depths in the order of the file. */
  public List<Object> getTreeOrDepth() {
    if (treeOrDepth == null) {
      treeOrDepth = new ArrayList<>();
    }
    return treeOrDepth;
  }

  /** Wrapped texts. */
  public List<JAXBElement<String>> getSigns() {
    if (signs == null) {
      signs = new ArrayList<>();
    }
    return signs;
  }

  public Soil getGround() {
    return ground;
  }

  public void setGround(Soil value) {
    ground = value;
  }

  public String getLabel() {
    return label;
  }

  public void setLabel(String value) {
    label = value;
  }

  /** Words that differ from their constants, and one that does not. */
  public enum Soil {
    @XmlEnumValue("wet clay")
    WET_CLAY,
    sand
  }

  /** An attribute of a superclass. */
  @XmlAccessorType(XmlAccessType.FIELD)
  public static class Plant {
    @XmlAttribute protected Integer height;

    public Integer getHeight() {
      return height;
    }

    public void setHeight(Integer value) {
      height = value;
    }
  }

  /** A text with an attribute. */
  @XmlAccessorType(XmlAccessType.FIELD)
  public static class Tree extends Plant {
    @XmlValue protected String value;

    public String getValue() {
      return value;
    }

    public void setValue(String text) {
      value = text;
    }
  }

  /** With an adapter that no binder is written for. */
  @XmlAccessorType(XmlAccessType.FIELD)
  public static class Motto {
    @XmlJavaTypeAdapter(NormalizedStringAdapter.class)
    protected String text;
  }

  /** Makes what has no class of its own. */
  public static class Factory {
    /** A sign of a garden. */
    @XmlElementDecl(name = "sign", scope = Garden.class)
    public JAXBElement<String> createGardenSign(String value) {
      return new JAXBElement<>(new QName("sign"), String.class, Garden.class, value);
    }
  }
}
