import html

import pytest
from django.db import DatabaseError, connection
from django.template.loader import render_to_string
from django.test import Client

from soapbench.science import sources
from soapbench.shelf.models import AllergenShare, FattyAcidShare, Material
from soapbench.workshop.numbers import trust


def test_every_constant_and_formula_in_use_stands_on_the_page(as_owner):
    page = html.unescape(as_owner.get("/about/numbers/").content.decode())
    constants, relations = sources.everything()

    assert [constant.name for constant in constants if constant.name not in page] == []
    assert [relation.name for relation in relations if relation.formula not in page] == []
    assert [constant.name for constant in constants if constant.why not in page] == []


def test_every_table_of_figures_in_use_stands_on_the_page(as_owner):
    page = html.unescape(as_owner.get("/about/numbers/").content.decode())
    tables = [table for chapter in sources.chapters() for table in chapter.tables]

    assert [table.name for table in tables if table.name not in page or table.source.title not in page] == []
    assert [cell for table in tables for row in table.rows for cell in row if f"<td>{cell}</td>" not in page] == []


def test_the_page_counts_how_many_figures_rest_on_what():
    chapters = sources.chapters()

    counted = trust(chapters)

    assert sum(count for _, count in counted) == sum(chapter.size for chapter in chapters)
    assert [confidence for confidence, _ in counted] == list(sources.SUREST_FIRST)


def test_every_source_of_the_reference_tables_stands_on_the_page(as_owner):
    page = html.unescape(as_owner.get("/about/numbers/").content.decode())

    materials = Material.objects.filter(workshop=None)
    named = {
        *materials.values_list("source", flat=True),
        *materials.filter(limit_percent__isnull=False).values_list("limit_source", flat=True),
        *FattyAcidShare.objects.values_list("source", flat=True),
        *AllergenShare.objects.values_list("source", flat=True),
    }
    assert len(named) > 20
    assert [source for source in named if source not in page] == []


def test_the_page_of_numbers_asks_a_fixed_number_of_questions(as_owner, django_assert_num_queries):
    with django_assert_num_queries(7):  # session, person, workshop; materials, limits, fatty acids, allergens
        as_owner.get("/about/numbers/")


def test_healthz_answers_without_a_sign_in(client, db):
    assert client.get("/healthz").content == b"ok"


@pytest.mark.parametrize("is_trusted", [True, False])
def test_healthz_says_when_the_database_does_not_answer(client, monkeypatch, settings, is_trusted):
    settings.TRUST_THIS_MACHINE = is_trusted

    def refuse():
        raise DatabaseError

    monkeypatch.setattr(connection, "cursor", refuse)

    assert client.get("/healthz").status_code == 503


@pytest.mark.parametrize("name", ["400", "403", "404", "500", "csrf"])
def test_the_error_pages_need_no_database(name):
    page = render_to_string(f"{name}.html")  # pytest-django lets no test without its mark reach a database

    assert "To the bench" in page


def test_what_is_not_there_is_told_in_plain_words(client, db):
    response = client.get("/nowhere/")

    assert response.status_code == 404
    assert "Nothing is here" in response.content.decode()


def test_a_form_without_its_token_is_told_to_load_the_page_again(owner):
    strict = Client(enforce_csrf_checks=True)
    strict.force_login(owner)

    response = strict.post("/workshop/details/", {})

    assert response.status_code == 403
    assert "Load the page again" in response.content.decode()


def test_a_broken_view_answers_in_plain_words(client, owner, monkeypatch):
    monkeypatch.setattr("soapbench.workshop.numbers.sources.chapters", lambda: 1 / 0)
    client.force_login(owner)
    client.raise_request_exception = False

    response = client.get("/about/numbers/")

    assert response.status_code == 500
    assert "The fault is ours" in response.content.decode()


def test_no_page_carries_inline_style_or_script(as_owner):
    for address in ("/shelf/", "/workshop/", "/about/numbers/", "/shelf/new/scent/", "/workshop/moulds/new/"):
        page = as_owner.get(address).content.decode()
        assert " style=" not in page and "<style" not in page and "<script>" not in page and " onclick" not in page


def test_the_demo_says_on_every_page_that_it_is_invented(as_owner):
    for address in ("/shelf/", "/workshop/", "/about/numbers/"):
        assert "are invented" in as_owner.get(address).content.decode()
