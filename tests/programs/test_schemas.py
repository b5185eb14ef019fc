"""What holds parts to schemas (`python -m tests.programs.schemas`), tried with one of our own."""

import zipfile

import pytest

from tests.authorities.iso_29500 import Schemas

SCHEMA = """
<xsd:schema xmlns:xsd="http://www.w3.org/2001/XMLSchema" xmlns="urn:main"
  targetNamespace="urn:main" elementFormDefault="qualified">
  <xsd:element name="sheet">
    <xsd:complexType>
      <xsd:sequence>
        <xsd:element name="row" type="xsd:int" maxOccurs="2"/>
        <xsd:element name="note" type="xsd:string" minOccurs="0"/>
      </xsd:sequence>
      <xsd:attribute name="wide" type="xsd:boolean"/>
    </xsd:complexType>
  </xsd:element>
</xsd:schema>
"""
HEAD = """<sheet xmlns="urn:main" xmlns:new="urn:new" xmlns:x="urn:other"
  xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006" """
CHOICE = "<mc:AlternateContent><mc:Choice Requires='{}'>{}</mc:Choice>{}</mc:AlternateContent>"
OLD = "<mc:Fallback><row>1</row><row>2</row></mc:Fallback>"

ALLOWED = {
    "as the schema says": "wide='1'><row>1</row><note xml:space='preserve'> a</note>",
    "what may be ignored": "mc:Ignorable='new' new:at='3'><new:b><row/></new:b><row>1</row>",
    "a choice that is not understood": ">" + CHOICE.format("new", "<new:row/>", OLD),
    "one without another": "><row>1</row>" + CHOICE.format("new", "<new:row/>", ""),
}
WRONG = {
    "a word": ("><row>a</row>", "'a' is not a valid value"),
    "disorder": ("><note/><row>1</row>", "note': This element is not expected"),
    "an unknown attribute": ("tall='1'><row>1</row>", "'tall': The attribute 'tall'"),
    "what may not be ignored": ("new:at='1'><row>1</row>", "at': The attribute"),
    "too many in a choice": ("><row>1</row>" + CHOICE.format("new", "", OLD), "not expected"),
    "what must be understood": ("mc:MustUnderstand='new'><row>1</row>", "no schema: urn:new"),
}


@pytest.fixture
def findings(tmp_path):
    """A function of a sheet's text: what is wrong with a file that holds it besides others."""
    (tmp_path / "main.xsd").write_text(SCHEMA, encoding="utf-8")

    def of(text):
        with zipfile.ZipFile(tmp_path / "book.xlsx", "w") as archive:
            archive.writestr("sheet1.xml", HEAD + text + "</sheet>")
            archive.writestr("other.xml", "<other xmlns='urn:other'/>")
            archive.writestr("code.bin", b"\0")
        held, without, wrong = Schemas(tmp_path).held(tmp_path / "book.xlsx")
        assert held == ["sheet1.xml"]
        assert without == {"other.xml": "no schema is for urn:other", "code.bin": "no XML"}
        return wrong

    return of


@pytest.mark.parametrize("what", ALLOWED)
def test_what_is_allowed(what, findings):
    assert findings(ALLOWED[what]) == []


@pytest.mark.parametrize("what", WRONG)
def test_what_is_not(what, findings):
    text, said = WRONG[what]
    (sentence,) = findings(text)
    assert sentence.startswith("sheet1.xml: ") and said in sentence


def test_a_schema_that_cannot_be_read_is_said(tmp_path, findings):
    (tmp_path / "other.xsd").write_text(
        SCHEMA.replace("urn:main", "urn:other").replace("xsd:int", "nothing"), encoding="utf-8"
    )
    with zipfile.ZipFile(tmp_path / "book.xlsx", "w") as archive:
        archive.writestr("other.xml", "<other xmlns='urn:other'/>")
    _, without, _ = Schemas(tmp_path).held(tmp_path / "book.xlsx")
    assert without["other.xml"].startswith("other.xsd cannot be read: ")
