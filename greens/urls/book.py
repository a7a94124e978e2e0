"""A club's own books, brought in."""

from django.urls import path

from greens.views import book as views

ONE = "books/<int:book_id>/"

urlpatterns = [
    path("books/", views.books, name="books"),
    path(ONE, views.book, name="book"),
    path(f"{ONE}columns/", views.book_columns, name="book_columns"),
    path(f"{ONE}check/", views.book_check, name="book_check"),
    path(f"{ONE}not-kept.csv", views.book_unread, name="book_unread"),
    path(f"{ONE}undo/", views.undo_book, name="undo_book"),
]
