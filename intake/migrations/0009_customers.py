"""One record for every customer and boat, and the requests that came before them."""

import django.db.models.deletion
import django.utils.timezone
from django.db import migrations, models

from intake.domain.known_by import boat_key, email_key, phone_key

AT_ONCE = 500


def link(apps, schema_editor):
    """Requests in the order in which they came, each as it would be linked today."""
    linking, requests = Linking(apps), apps.get_model("intake", "Submission").objects
    after = 0
    while some := list(requests.filter(pk__gt=after).order_by("pk")[:AT_ONCE]):
        after = some[-1].pk
        requests.bulk_update(
            [one for one in some if linking.link(one)], ["customer", "boat"], batch_size=100
        )
    set_activity(apps)
    set_boats_of_shafts(apps)


class Linking:
    """What is known so far, by its keys."""

    def __init__(self, apps):
        self.customers = apps.get_model("intake", "Customer").objects
        self.boats = apps.get_model("intake", "Boat").objects
        self.by_phone, self.by_email, self.known_boats = {}, {}, {}

    def link(self, request):
        phone, email = phone_key(request.contact_phone)[:64], email_key(request.contact_email)
        if not phone and not email:
            return False
        customer = self.by_phone.get(phone) or self.by_email.get(email)
        if customer is None:
            customer = self._new(request, phone, email)
        self._learn(customer, request, phone, email)
        request.customer = customer
        request.boat_id = self._boat(request)
        return True

    def _new(self, request, phone, email):
        return self.customers.create(
            name=request.contact_name,
            phone=request.contact_phone,
            email=request.contact_email,
            role=request.contact_role,
            phone_key=phone,
            email_key=email,
            known_by=phone or email,
            phone_tail=phone[-8:],
            made_at=request.received_at,
            active_at=request.received_at,
        )

    def _learn(self, customer, request, phone, email):
        """A number or an address that the record did not have yet."""
        if phone and not customer.phone_key:
            customer.phone, customer.phone_key = request.contact_phone, phone
            customer.known_by = phone
            customer.phone_tail = phone[-8:]
            customer.save()
        if email and not customer.email_key:
            customer.email, customer.email_key = request.contact_email, email
            customer.save()
        if customer.phone_key:
            self.by_phone[customer.phone_key] = customer
        if customer.email_key:
            self.by_email.setdefault(customer.email_key, customer)

    def _boat(self, request):
        key = boat_key(request.boat_name)
        if not key:
            return None
        three = (request.customer_id, key, request.station)
        if three not in self.known_boats:
            self.known_boats[three] = self.boats.create(
                customer_id=request.customer_id,
                name=request.boat_name,
                station=request.station,
                boat_key=key,
                made_at=request.received_at,
            ).pk
        return self.known_boats[three]


def set_activity(apps):
    own = apps.get_model("intake", "Submission").objects.filter(customer=models.OuterRef("pk"))
    newest = own.order_by("-received_at").values("received_at")[:1]
    apps.get_model("intake", "Customer").objects.update(active_at=models.Subquery(newest))


def set_boats_of_shafts(apps):
    own = apps.get_model("intake", "Submission").objects.filter(pk=models.OuterRef("submission"))
    boat = models.Subquery(own.values("boat")[:1])
    apps.get_model("intake", "ShaftFitted").objects.update(boat=boat)


class Migration(migrations.Migration):

    dependencies = [
        ("intake", "0008_finding"),
    ]

    operations = [
        migrations.AddField(
            model_name='customer',
            name='active_at',
            field=models.DateTimeField(default=django.utils.timezone.now),
        ),
        migrations.AddField(
            model_name='customer',
            name='phone_tail',
            field=models.CharField(blank=True, max_length=8),
        ),
        migrations.AddField(
            model_name='customer',
            name='revision',
            field=models.PositiveIntegerField(default=0),
        ),
        migrations.AlterField(
            model_name='boat',
            name='customer',
            field=models.ForeignKey(db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name='boats', to='intake.customer'),
        ),
        migrations.AlterField(
            model_name='boat',
            name='merged_into',
            field=models.ForeignKey(blank=True, db_index=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='merged', to='intake.boat'),
        ),
        migrations.AlterField(
            model_name='customer',
            name='merged_into',
            field=models.ForeignKey(blank=True, db_index=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='merged', to='intake.customer'),
        ),
        migrations.AddIndex(
            model_name='boat',
            index=models.Index(condition=models.Q(('merged_into__isnull', False)), fields=['merged_into'], name='boat_merged'),
        ),
        migrations.AddIndex(
            model_name='customer',
            index=models.Index(fields=['phone_tail'], name='customer_by_tail'),
        ),
        migrations.AddIndex(
            model_name='customer',
            index=models.Index(fields=['-active_at', '-id'], name='customer_by_activity'),
        ),
        migrations.AddIndex(
            model_name='customer',
            index=models.Index(condition=models.Q(('merged_into__isnull', False)), fields=['merged_into'], name='customer_merged'),
        ),
        migrations.AddConstraint(
            model_name='boat',
            constraint=models.UniqueConstraint(fields=('customer', 'boat_key', 'station'), name='one_of_each_boat_and_side'),
        ),
        migrations.AddField(
            model_name='customer',
            name='known_by',
            field=models.CharField(max_length=254, null=True),
        ),
        migrations.AddConstraint(
            model_name='customer',
            constraint=models.UniqueConstraint(fields=('known_by',), name='one_of_each_customer'),
        ),
        migrations.RunPython(link, migrations.RunPython.noop),
    ]
