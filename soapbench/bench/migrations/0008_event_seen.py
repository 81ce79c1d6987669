from django.db import migrations, models


class Migration(migrations.Migration):

    # A nullable column is added in place on SQLite, so the triggers of 0007 stay.
    dependencies = [
        ('bench', '0007_events_are_append_only'),
    ]

    operations = [
        migrations.AddField(
            model_name='event',
            name='seen',
            field=models.PositiveIntegerField(blank=True, null=True),
        ),
    ]
